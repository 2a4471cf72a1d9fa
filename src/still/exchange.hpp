// The condenser as a heat exchanger of a given conductance: how cold the spirit runs and how
// warm the coolant leaves. Two zones, counter-current: the vapour condenses at its dew point,
// then the liquid cools, each zone taking as much of the coil as it needs. Coolant that is too
// scant for the vapour lets some of it escape: a finding, not a refusal. Leaves out that a
// mixture condenses over a range of temperature, that a conductance falls with the flow, and
// the heat that the coil gives to the room.
#pragma once

#include <optional>

#include "spirit/reading.hpp"
#include "still/kit.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// Vapour on its way into the coil.
struct VapourFlow {
  double mol_per_s = 0.0;
  units::MoleFraction ethanol;
};

struct CoolantFlow {
  units::Temperature inlet;
  units::VolumeFlow flow;
};

struct Exchange {
  units::Temperature spirit;   ///< at the spout; the dew point when vapour escapes
  units::Temperature coolant;  ///< leaving
  units::Power condensing;     ///< heat of the zone of vapour
  units::Power cooling;        ///< heat of the zone of liquid
  units::Share escapes;        ///< of the vapour, which leaves the coil uncondensed
  [[nodiscard]] units::Power heat() const { return condensing + cooling; }
};

/// Share of the greatest heat two streams could exchange that counter-current flow exchanges.
///
/// transfer_units   conductance over the smaller stream's heat capacity rate, 0 or more
/// ratio            of the two rates, the smaller over the greater, 0 to 1
/// throws           InputError("transfer_units"), ("ratio") outside
/// accuracy         tests/still/exchange_test.cpp: printed table and a worked example, both
///                  from memory
/// source           effectiveness by number of transfer units (Kays and London, Compact Heat
///                  Exchangers): e = (1 - exp(-N(1-C))) / (1 - C exp(-N(1-C)))
[[nodiscard]] double counter_current_effectiveness(double transfer_units, double ratio);

/// Logarithmic mean of the temperature differences at the two ends of a zone; both above zero,
/// or zero when either is.
[[nodiscard]] double log_mean_K(double at_one_end_K, double at_the_other_K);

/// What a coil does with a vapour.
///
/// vapour       zero or more
/// conductance  U A of the whole coil, W/K; zero or more
/// coolant      flow zero or more; inlet 0 °C to below the vapour's dew point
/// throws       InputError "vapour", "conductance", "coolant.flow", "coolant.inlet"
/// accuracy     heat given is heat taken to 1e-9; the conductance is found again from both
///              zones' heats to 1e-6 (tests/still/exchange_test.cpp). The liquid's heat
///              capacity is its mean over the zone, in the conductance only
/// source       heat over logarithmic mean difference, zone by zone; enthalpy.hpp
[[nodiscard]] Exchange exchange(const VapourFlow& vapour, units::HeatLoss conductance,
                                const CoolantFlow& coolant, const vapour::BoilingCurve& curve);

/// The conductance of a coil that keeps the condenser's two approaches with this vapour and the
/// coolant it then needs.
///
/// throws       InputError "condenser.coolant_inlet" when the coolant is too warm for that;
///              "vapour" unless there is some
/// accuracy     exchange() with that coolant gives both approaches back
[[nodiscard]] units::HeatLoss conductance(const VapourFlow& vapour, const Condenser& condenser,
                                          const vapour::BoilingCurve& curve);

/// The coolant with which the leaving coolant is `warm_end_approach` below the vapour and the
/// spirit `cold_end_approach` above the coolant's inlet.
///
/// throws       InputError "condenser.coolant_inlet" when it is below 0 °C or too warm for
///              that, "vapour" below zero
[[nodiscard]] CoolantFlow coolant_at_approaches(const VapourFlow& vapour,
                                                const Condenser& condenser,
                                                const vapour::BoilingCurve& curve);

/// What hydrometer and thermometer show in the parrot at a moment of a run.
struct AtTheSpout {
  Exchange exchange;
  /// %vol on a glass true at 20 °C, standing in spirit as warm as it runs; nothing when that is
  /// outside -20 to 40 °C.
  std::optional<spirit::Reading> shown;
};
/// throws       InputError of exchange()
[[nodiscard]] AtTheSpout at_the_spout(const Point& point, units::HeatLoss conductance,
                                      const CoolantFlow& coolant,
                                      const vapour::BoilingCurve& curve);

}  // namespace lynearm::still
