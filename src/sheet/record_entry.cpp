// An entry of the journal in a line: for what was corrected, where the figure that no longer
// counts is told too.
#include <fmt/format.h>

#include "ferment/yeast.hpp"
#include "sheet/record_words.hpp"
#include "sheet/wood_words.hpp"
#include "still/reading.hpp"
#include "units/restate.hpp"

namespace lynearm::sheet {
namespace {

using units::System;

// Parts of a sentence, those that are empty left out.
class Line {
 public:
  Line& add(const std::string& part) {
    if (!part.empty()) text_ += (text_.empty() ? "" : ", ") + part;
    return *this;
  }
  template <class Q>
  Line& add(const char* name, const std::optional<Q>& quantity, System system) {
    if (!quantity) return *this;
    return add(fmt::format("{}{}{}", name, *name == '\0' ? "" : " ", cell(*quantity, system)));
  }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

// What each kind of entry says besides its name.
struct Says {
  System system;

  std::string operator()(const journal::BatchBegun& b) const { return b.name; }
  std::string operator()(const journal::BatchPlanned&) const { return "recipe and kit"; }
  std::string operator()(const journal::BatchClosed&) const { return {}; }
  std::string operator()(const journal::KitStated&) const { return {}; }
  std::string operator()(const journal::Note& b) const {
    constexpr std::size_t enough = 160;
    if (b.text.size() <= enough) return b.text;
    std::size_t end = enough;
    // Not in the midst of a character.
    while (end > 0 && (static_cast<unsigned char>(b.text[end]) & 0xC0U) == 0x80U) --end;
    return b.text.substr(0, end) + " …";
  }
  std::string operator()(const journal::Struck& b) const { return b.reason; }
  std::string operator()(const journal::StepMarked& b) const {
    return b.done ? b.step : b.step + " (not done)";
  }
  std::string operator()(const journal::Added& b) const {
    return Line{}.add(b.what).add("", b.mass, system).add("", b.volume, system).text();
  }
  std::string operator()(const journal::AirRead& b) const {
    return Line{}
        .add("at the still", b.pressure, system)
        .add("water boils at", b.boiling_water, system)
        .text();
  }
  std::string operator()(const journal::CopperCleaned& b) const {
    return Line{}.add(b.what).add(b.with).add(b.remark).text();
  }
  std::string operator()(const journal::MashTemperature& b) const {
    return cell(b.temperature, system);
  }
  std::string operator()(const journal::MashWater& b) const {
    return fmt::format("{} of {}", cell(b.volume, system), cell(b.temperature, system));
  }
  std::string operator()(const journal::MashChecked& b) const {
    Line line;
    if (b.iodine) line.add(words(*b.iodine));
    if (b.gravity) line.add(shown(*b.gravity, system));
    return line.text();
  }
  std::string operator()(const journal::WortDrawn& b) const {
    return Line{}.add(b.from).add(shown(b.volume, system)).add(shown(b.gravity, system)).text();
  }
  std::string operator()(const journal::Pitched& b) const {
    return Line{}
        .add(shown(b.volume, system))
        .add(shown(b.gravity, system))
        .add(fmt::format("{} of {}", cell(b.mass, system), ferment::yeast_name(b.yeast)))
        .text();
  }
  std::string operator()(const journal::FermentRead& b) const {
    Line line;
    if (b.gravity) line.add(shown(*b.gravity, system));
    return line.add("wash at", b.temperature, system).text();
  }
  std::string operator()(const journal::Racked& b) const {
    return Line{}.add(shown(b.clear, system)).add("lees", b.lees, system).text();
  }
  std::string operator()(const journal::LotBrought& b) const {
    return Line{}
        .add(b.name)
        .add(shown(b.volume, system))
        .add(shown(b.strength, system))
        .text();
  }
  std::string operator()(const journal::LotGauged& b) const {
    return Line{}
        .add(words(b.lot.kind))
        .add(shown(b.volume, system))
        .add(shown(b.strength, system))
        .text();
  }
  std::string operator()(const journal::LotTaken& b) const {
    return Line{}
        .add(fmt::format("{} of the {}", cell(b.volume, system), words(b.lot.kind)))
        .add(b.reason)
        .text();
  }
  std::string operator()(const journal::RunBegun& b) const {
    Line line;
    line.add(b.kind == journal::RunKind::strip ? "strip" : "spirit run")
        .add(shown(b.charge, system));
    if (b.strength) line.add(shown(*b.strength, system));
    return line.add("wash in it", b.wash, system).add("power", b.power, system).text();
  }
  std::string operator()(const journal::RunRead& b) const {
    const still::Reading& read = b.reading;
    Line line;
    if (read.spout) line.add("spout " + tight(spirit::print(*read.spout)));
    line.add("of", read.spout_temperature, system)
        .add("head", read.head_temperature, system)
        .add("pot", read.pot_temperature, system)
        .add("collected", read.collected, system)
        .add("power", read.power, system)
        .add("coolant in", read.coolant_in, system)
        .add("coolant out", read.coolant_out, system)
        .add("coolant", read.coolant_flow, system);
    if (read.event) line.add(std::string(still::word(*read.event)));
    return line.add(read.note).text();
  }
  std::string operator()(const journal::JarFilled& b) const {
    return Line{}.add(fmt::format("jar {}", b.jar)).add("", b.volume, system).text();
  }
  std::string operator()(const journal::RunEnded& b) const {
    Line line;
    if (b.collected) line.add("collected " + shown(*b.collected, system));
    if (b.strength) line.add(shown(*b.strength, system));
    line.add("left in the pot", b.left, system);
    if (b.left_strength) line.add("of " + shown(*b.left_strength, system));
    return line.text();
  }
  std::string operator()(const journal::JarGauged& b) const {
    return Line{}
        .add(fmt::format("jar {}", b.jar))
        .add(shown(b.volume, system))
        .add(shown(b.strength, system))
        .text();
  }
  std::string operator()(const journal::JarNoted& b) const {
    return Line{}
        .add(fmt::format("jar {}", b.jar))
        .add(fmt::format("{}", fmt::join(b.words, ", ")))
        .add(b.text)
        .add(b.fault ? fmt::format("fault {:.0f}", *b.fault) : std::string{})
        .text();
  }
  std::string operator()(const journal::JarsAllotted& b) const {
    units::Volume hearts;
    for (const journal::JarPoured& pour : b.pours) hearts += pour.hearts;
    return fmt::format("{}, {} of them hearts",
                       count_of(static_cast<int>(b.pours.size()), "jar", "jars"),
                       cell(hearts, system));
  }
  std::string operator()(const journal::LotMade& b) const {
    Line line;
    line.add(b.name).add(cell(b.water, system) + " of water");
    if (b.volume) line.add(shown(*b.volume, system));
    if (b.strength) line.add(shown(*b.strength, system));
    if (b.residue) {
      line.add(fmt::format("{:.1f} g/L left on drying", b.residue->grams_per_litre()));
    }
    return line.text();
  }
  std::string operator()(const journal::WoodFilled& b) const {
    Line line;
    line.add(cell(b.part.volume, system)).add(b.in);
    if (b.staves) line.add(count_of(*b.staves, "stave", "staves"));
    line.add(species_words(b.species)).add(b.toast).add(used_before(b.used_times));
    for (const journal::StavesLaid& one : b.besides) line.add("with " + staves_words(one));
    return line.text();
  }
  std::string operator()(const journal::WoodSampled& b) const {
    return Line{}
        .add(cell(b.volume, system))
        .add(fmt::format("{}", fmt::join(b.words, ", ")))
        .add(b.text)
        .text();
  }
  std::string operator()(const journal::WoodEmptied& b) const {
    return Line{}.add(shown(b.volume, system)).add(shown(b.strength, system)).text();
  }
  std::string operator()(const journal::Bottled& b) const {
    return Line{}
        .add(fmt::format("{} of {}", count_of(b.bottles, "bottle", "bottles"),
                         cell(b.size, system)))
        .add(cell(b.strength, system))
        .add(b.residue ? fmt::format("{:.1f} g/L left on drying", b.residue->grams_per_litre())
                       : std::string{})
        .text();
  }
  std::string operator()(const journal::WoodTopped& b) const {
    return cell(b.part.volume, system);
  }
  std::string operator()(const journal::Labelled& b) const {
    return Line{}
        .add(b.name)
        .add("stated " + cell(b.strength, system))
        .add(b.names_class)
        .text();
  }
  std::string operator()(const journal::Upheld& b) const {
    return Line{}.add(units::restated(b.asked, system)).add(b.reason).text();
  }
  std::string operator()(const journal::Foreign& b) const {
    return fmt::format("of a newer program, version {}", b.version);
  }
};

}  // namespace

std::string in_words(const journal::Entry& entry, System system) {
  const std::string kind(journal::kind_of(entry.body));
  const std::string says = std::visit(Says{system}, entry.body);
  return says.empty() ? kind : fmt::format("{}: {}", kind, says);
}

}  // namespace lynearm::sheet
