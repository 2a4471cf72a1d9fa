// The coefficients of the general formula of OIML R 22, International alcoholometric tables
// (1973, edition 1975), digit by digit as printed:
//
//   rho(p, t) = A1 + sum k=2..12 A_k p^(k-1) + sum k=1..6 B_k (t-20)^k
//             + sum i=1..5 sum k=1..m_i C_i,k p^k (t-20)^i,   m = 11, 10, 9, 4, 2
//
// rho in kg/m³, p the mass fraction of ethanol, t in °C (on the scale of 1968), -20 to 40.
// Some public copies print C_1,1 with ...433... where ten others and this have ...443...; the
// difference is at most 4e-5 kg/m³. Every digit is held against a second transcription by
// tests/published/oiml_r22_test.cpp: the printed tables could not show one wrong in a C.
//
// What a double cannot hold of the printed digits is at most 9.4e-11 kg/m³ in a density and
// 3.3e-13 in a mass fraction (cold pure ethanol). Accuracies stated elsewhere are against the
// formula with these doubles.
#pragma once

#include <array>

namespace lynearm::spirit::oiml_r22 {

// clang-format off
/// A_1 to A_12, kg/m³.
inline constexpr std::array<double, 12> A = {
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
    306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426};
/// B_1 to B_6, kg/(m³ K^k).
inline constexpr std::array<double, 6> B = {
    -2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11};
/// C_1,1 to C_1,11, kg/(m³ K).
inline constexpr std::array<double, 11> C1 = {
    1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
    3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
    1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3};
/// C_2,1 to C_2,10, kg/(m³ K²).
inline constexpr std::array<double, 10> C2 = {
    -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
    -5.029988758547014e1, 1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2,
    -4.414153236817392e1, 7.442971530188783};
/// C_3,1 to C_3,9, kg/(m³ K³).
inline constexpr std::array<double, 9> C3 = {
    -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220,
    -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461,
    -5.411227621436812e-1};
/// C_4,1 to C_4,4, kg/(m³ K^4).
inline constexpr std::array<double, 4> C4 = {
    4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6};
/// C_5,1 and C_5,2, kg/(m³ K^5).
inline constexpr std::array<double, 2> C5 = {-2.788074354782409e-8, 1.345612883493354e-8};
// clang-format on

}  // namespace lynearm::spirit::oiml_r22
