#include "still/cuts.hpp"

#include <fmt/format.h>

#include <string>

#include "base/error.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {
namespace {

struct Shown {
  std::string operator()(units::Volume v) const { return fmt::format("{:.3f} L", v.litres()); }
  std::string operator()(units::VolumeStrength s) const {
    return fmt::format("{:.2f} %vol", s.percent());
  }
  std::string operator()(units::Temperature t) const {
    return fmt::format("{:.2f} °C", t.celsius());
  }
};

struct Reach {
  const Run& run;
  std::string operator()(units::Volume) const {
    return fmt::format("a volume from 0 to the {:.3f} L of the run",
                       run.last().collected.litres());
  }
  std::string operator()(units::VolumeStrength) const {
    return fmt::format(
        "a strength from {:.2f} down to {:.2f} %vol, between which the spout runs",
        run.first().spout.percent(), run.last().spout.percent());
  }
  std::string operator()(units::Temperature) const {
    return fmt::format(
        "a temperature from {:.2f} up to {:.2f} °C, between which the head rises",
        run.first().head_temperature.celsius(), run.last().head_temperature.celsius());
  }
};

struct Find {
  const Run& run;
  std::optional<Point> operator()(units::Volume v) const {
    if (!(v >= units::Volume{} && v <= run.last().collected * (1.0 + 1e-9)))
      return std::nullopt;
    return point_at_volume(run, v);
  }
  std::optional<Point> operator()(units::VolumeStrength s) const {
    return when_spout_falls_to(run, s);
  }
  std::optional<Point> operator()(units::Temperature t) const {
    return when_head_rises_to(run, t);
  }
};

void require_order(const Point& before, const Point& after, const Border& border,
                   std::string_view field, std::string_view before_name) {
  if (after.in_pot <= before.in_pot) return;
  throw base::InputError(
      std::string(field), std::visit(Shown{}, border),
      fmt::format("not before {}: that comes at {:.3f} L and {:.2f} %vol, this already at "
                  "{:.3f} L",
                  before_name, before.collected.litres(), before.spout.percent(),
                  after.collected.litres()));
}

}  // namespace

Point moment(const Run& run, const Border& border, std::string_view field) {
  const std::optional<Point> found = std::visit(Find{run}, border);
  if (found) return *found;
  throw base::InputError(std::string(field), std::visit(Shown{}, border),
                         std::visit(Reach{run}, border));
}

Fraction fraction(const Point& from, const Point& to) {
  Fraction part;
  part.lot = between(from, to);
  part.from = from;
  part.to = to;
  part.volume = units::Volume::litres(litres_20C(part.lot));
  part.pure_alcohol = to.pure_alcohol - from.pure_alcohol;
  if (part.volume > units::Volume{}) {
    part.strength = units::VolumeStrength::fraction(part.pure_alcohol / part.volume);
  }
  return part;
}

Cuts cut(const Run& run, const Borders& borders) {
  const Point foreshots = moment(run, borders.foreshots_end, "cuts.foreshots_end");
  const Point begin = moment(run, borders.hearts_begin, "cuts.hearts_begin");
  require_order(foreshots, begin, borders.hearts_begin, "cuts.hearts_begin",
                "the end of the foreshots");
  const Point end = moment(run, borders.hearts_end, "cuts.hearts_end");
  require_order(begin, end, borders.hearts_end, "cuts.hearts_end", "the begin of the hearts");
  return {fraction(run.first(), foreshots), fraction(foreshots, begin), fraction(begin, end),
          fraction(end, run.last())};
}

std::vector<Fraction> into_jars(const Run& run, units::Volume each) {
  const double litres = run.last().collected.litres();
  if (!(each.litres() > 0.0 && litres / each.litres() <= 10000.0)) {
    throw base::InputError("jar", fmt::format("{:.4g} L", each.litres()),
                           "above zero, and at most 10,000 jars");
  }
  std::vector<Fraction> jars;
  Point from = run.first();
  // Filled by the volume collected, as a maker fills them: mixing the jars again loses a little
  // to contraction, so the cumulative volume is what is stepped.
  for (int filled = 1; each.litres() * filled < litres * (1.0 - 1e-9); ++filled) {
    const Point to = point_at_volume(run, each * static_cast<double>(filled));
    jars.push_back(fraction(from, to));
    from = to;
  }
  jars.push_back(fraction(from, run.last()));
  return jars;
}

}  // namespace lynearm::still
