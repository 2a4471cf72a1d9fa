// What can hurt at each step of a batch, in plain words. One place for these sentences, so that
// a test can see that each stands on the sheet, and other surfaces say the same.
#pragma once

#include <string_view>

namespace lynearm::sheet {

struct Caution {
  std::string_view word;  ///< opens it, in bold
  std::string_view text;
};

namespace cautions {

inline constexpr Caution law{
    "Law",
    "Distilling without a licence is unlawful in many countries, even for one's own use. This "
    "sheet is a forecast and no permission: local law, fire code and licensed practice "
    "decide."};

inline constexpr Caution hot_porridge{
    "Scalds",
    "Cooked grain clings to the skin and burns deeper than water. Long sleeves, gloves, closed "
    "shoes. Nobody lifts a full hot vessel: ladle it, drain it, or pump it, and with two "
    "people. "
    "Children and animals stay out."};

inline constexpr Caution syrup{
    "Boiling sugar",
    "Syrup rises in the pot without warning and clings where it splashes. Use no more than two "
    "thirds of the pot, stir until all is dissolved, stay beside it."};

inline constexpr Caution carbon_dioxide{
    "Carbon dioxide",
    "A ferment gives off a gas heavier than air; it gathers in cellars, closets and chests, "
    "and "
    "lies in an emptied fermenter. Air the room, never put a head into the vessel. Headache or "
    "short breath: out at once. No caustic into a vessel full of the gas: it collapses."};

inline constexpr Caution hot_pot{
    "Hot pot",
    "Never charge wash or spirit into a hot pot: it boils up, and its vapour flashes out. Heat "
    "off, let it cool, then open and charge."};

inline constexpr Caution heat{
    "Heat",
    "Never leave a heated still, not for a minute. If the coolant fails: heat off first, then "
    "look for the cause. An element must stay covered to the end of the run."};

inline constexpr Caution outlet{
    "Open outlet",
    "The way from pot to jar is open to the air from first heat to cold pot. Never close the "
    "outlet, never let it dip into the spirit, and look through it before each run: a closed "
    "still bursts."};

inline constexpr Caution vapour{"Vapour",
                                "Spirit above 40 °C (104 °F) at the spout: vapour may be "
                                "escaping. Heat off first, then see "
                                "to the coolant."};

inline constexpr Caution fire{
    "Fire",
    "No flame, spark, heater or cigarette by running spirit or open jars; a spirit flame is "
    "hard "
    "to see by day. Jars stand covered, away from the heat. Something that puts out burning "
    "spirit is at hand. A spill: heat off, air the room, water over it."};

inline constexpr Caution foreshots{
    "Foreshots",
    "Foreshots are poured away from food and drink, in a bottle that says so. Discarding them "
    "does not make a spirit safe, and nothing on this sheet says that one is."};

inline constexpr Caution blue_or_green{"Blue or green",
                                       "Blue or green spirit is set aside: it carries copper. "
                                       "Clean the still before its next run."};

inline constexpr Caution tasting{
    "Tasting",
    "Smell away from the spout. Taste diluted, to 30 %vol or less, a few drops at a time, and "
    "little in all: strong samples numb the palate and add up. Who tends the still stays "
    "sober."};

inline constexpr Caution storage{
    "Strong spirit",
    "Keep it in glass, stainless steel or wood, closed, labelled with strength and date, cool, "
    "away from flame and from children. How much may stand in one room is for the fire code to "
    "say."};

inline constexpr Caution charring{
    "Toast and char",
    "Char outdoors and away from spirit, quench, and use the wood cold. A sample warmed to "
    "hurry "
    "it is never sealed full, and never near a flame, an oven or a microwave."};

}  // namespace cautions
}  // namespace lynearm::sheet
