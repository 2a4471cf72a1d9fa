#include "sheet/follow_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "sheet/axis.hpp"
#include "sheet/batch_words.hpp"
#include "sheet/letter.hpp"
#include "sheet/page.hpp"
#include "sheet/run_chart.hpp"
#include "sheet/table.hpp"

namespace lynearm::sheet {
namespace {

using units::System;

constexpr double width_mm = 170.0, left_mm = 16.0, right_mm = 4.0, plot_mm = 62.0;
constexpr double top_mm = 29.0, between_mm = 9.0, foot_mm = 12.0, letter_mm = 3.0;
constexpr double mark_mm = 1.1;

// A reading of one plot.
struct Mark {
  double minutes = 0.0, value = 0.0;
  bool believed = true;
};

struct Plot {
  std::string name, unit;
  std::vector<double> minutes, low, median, high;
  std::vector<Mark> marks;
};

class Canvas {
 public:
  Canvas(Writer& out, Drawing& drawing) : out_(out), drawing_(drawing) {}

  void line(double x1, double y1, double x2, double y2, double stroke, const char* dash = "") {
    Attributes attributes{{"x1", x1}, {"y1", y1},         {"x2", x2},
                          {"y2", y2}, {"stroke", "#000"}, {"stroke-width", stroke}};
    if (*dash != '\0') attributes.emplace_back("stroke-dasharray", dash);
    out_.leaf("line", attributes);
  }
  void label(std::string text, double x, double top, Anchor anchor) {
    Label label{{std::move(text)}, x, top, letter_mm, anchor, Weight::regular};
    write(out_, label);
    drawing_.labels.push_back(std::move(label));
  }
  /// On a plate of its own, which hides what runs behind it.
  void plate(const std::string& text, double x, double top) {
    out_.leaf("rect", {{"x", x - 0.4},
                       {"y", top},
                       {"width", text_width_mm(text, letter_mm) + 0.8},
                       {"height", letter_mm * line_height},
                       {"fill", "#fff"}});
    label(text, x, top, Anchor::start);
  }
  Writer& out() { return out_; }

 private:
  Writer& out_;
  Drawing& drawing_;
};

void draw_plot(Canvas& canvas, const Plot& plot, const Ticks& x_ticks, double x_low,
               double x_high, double top) {
  double low = plot.low.front(), high = plot.high.front();
  for (const double y : plot.low) low = std::min(low, y);
  for (const double y : plot.high) high = std::max(high, y);
  const Ticks ticks = ticks_covering(low, high, 6);
  const double y_low = ticks.at.front(), y_high = ticks.at.back();
  const auto x_of = [&](double minutes) {
    return left_mm + (width_mm - left_mm - right_mm) * (minutes - x_low) / (x_high - x_low);
  };
  const auto y_of = [&](double value) {
    const double inside = std::clamp(value, y_low, y_high);
    return top + plot_mm * (y_high - inside) / (y_high - y_low);
  };
  for (const double t : ticks.at) {
    canvas.line(left_mm, y_of(t), width_mm - right_mm, y_of(t), 0.1);
    canvas.label(ticks.text(t), left_mm - 1.5, y_of(t) - 0.5 * letter_mm * line_height,
                 Anchor::end);
  }
  for (const double t : x_ticks.at) {
    if (t < x_low || t > x_high) continue;
    canvas.line(x_of(t), top + plot_mm, x_of(t), top + plot_mm + 1.2, 0.2);
  }
  canvas.line(left_mm, top + plot_mm, width_mm - right_mm, top + plot_mm, 0.3);
  canvas.plate(fmt::format("{}, {}", plot.name, plot.unit), left_mm, top - 4.6);

  Path band, median;
  for (std::size_t i = 0; i < plot.minutes.size(); ++i) {
    const double x = x_of(plot.minutes[i]);
    if (i == 0) {
      band.move(x, y_of(plot.high[i]));
      median.move(x, y_of(plot.median[i]));
    } else {
      band.line(x, y_of(plot.high[i]));
      median.line(x, y_of(plot.median[i]));
    }
  }
  for (std::size_t i = plot.minutes.size(); i-- > 0;) {
    band.line(x_of(plot.minutes[i]), y_of(plot.low[i]));
  }
  canvas.out().leaf("path",
                    {{"d", band.shut().data()}, {"fill", "#000"}, {"fill-opacity", "0.15"}});
  canvas.out().leaf(
      "path",
      {{"d", median.data()}, {"fill", "none"}, {"stroke", "#000"}, {"stroke-width", 0.45}});
  for (const Mark& mark : plot.marks) {
    if (mark.minutes < x_low || mark.minutes > x_high) continue;
    const double x = x_of(mark.minutes), y = y_of(mark.value);
    if (mark.believed) {
      canvas.out().leaf("circle", {{"cx", x},
                                   {"cy", y},
                                   {"r", mark_mm},
                                   {"fill", "#fff"},
                                   {"stroke", "#000"},
                                   {"stroke-width", 0.3}});
    } else {
      canvas.line(x - mark_mm, y - mark_mm, x + mark_mm, y + mark_mm, 0.5);
      canvas.line(x - mark_mm, y + mark_mm, x + mark_mm, y - mark_mm, 0.5);
    }
  }
}

bool doubted(const std::vector<still::Doubt>& doubts, std::size_t reading,
             still::Instrument instrument) {
  return std::any_of(doubts.begin(), doubts.end(), [&](const still::Doubt& d) {
    return d.reading == reading && d.instrument == instrument;
  });
}

}  // namespace

Drawing follow_picture(const still::Follower& follower, const still::Forecast& forecast,
                       System system) {
  base::ensure(forecast.by_time.size() >= 2, "a curve has two points at least");
  Plot spout{"At the spout, true", strength_unit(system), {}, {}, {}, {}, {}};
  Plot head{"Head", temperature_unit(system), {}, {}, {}, {}, {}};
  for (const still::ExpectedAt& at : forecast.by_time) {
    if (!at.running) continue;
    for (Plot* plot : {&spout, &head}) plot->minutes.push_back(at.at.minutes());
    spout.low.push_back(figure_of(at.spout.low, system));
    spout.median.push_back(figure_of(at.spout.median, system));
    spout.high.push_back(figure_of(at.spout.high, system));
    head.low.push_back(figure_of(at.head.low, system));
    head.median.push_back(figure_of(at.head.median, system));
    head.high.push_back(figure_of(at.head.high, system));
  }
  base::ensure(spout.minutes.size() >= 2, "some still runs for a while");  // runs_a_while()
  const std::vector<still::Doubt> doubts = follower.doubts();
  // The curves are true ones: off the readings goes what their instruments show too much.
  const auto too_much = [all = follower.constants()](still::Constant constant) {
    return all[static_cast<std::size_t>(constant)].value;
  };
  const double off_head = too_much(still::Constant::head_thermometer);
  const double off_spout = too_much(still::Constant::hydrometer);
  for (const still::Figure& figure : follower.figures()) {
    const bool believed = !doubted(doubts, figure.reading, figure.instrument);
    const double minutes = figure.at_s / 60.0;
    if (figure.instrument == still::Instrument::hydrometer) {
      const auto s =
          units::VolumeStrength::percent(std::clamp(figure.value - off_spout, 0.0, 100.0));
      spout.marks.push_back({minutes, figure_of(s, system), believed});
    } else if (figure.instrument == still::Instrument::head_thermometer) {
      const auto t = units::Temperature::celsius(figure.value - off_head);
      head.marks.push_back({minutes, figure_of(t, system), believed});
    }
  }

  Drawing drawing;
  drawing.width_mm = width_mm;
  drawing.height_mm = top_mm + 2.0 * plot_mm + between_mm + foot_mm;
  Writer out;
  open_drawing(out, drawing.width_mm, drawing.height_mm,
               "Strength at the spout and head temperature over time: expected with its 80 % "
               "band, readings as rings, readings not believed as crosses.");
  Canvas canvas(out, drawing);
  const double x_low = spout.minutes.front(), x_high = spout.minutes.back();
  const Ticks x_ticks = ticks_inside(x_low, x_high, 8, true, false);
  const double below = top_mm + plot_mm + between_mm;
  const auto x_of = [&](double minutes) {
    return left_mm + (width_mm - left_mm - right_mm) * (minutes - x_low) / (x_high - x_low);
  };
  // Flags above the plots, each on a level of its own so that none meets another.
  double level = 0.0;
  const auto flag = [&](double minutes, const std::string& words, const char* dash) {
    if (minutes < x_low || minutes > x_high) return;
    const double top = 1.0 + 3.8 * level;
    level += 1.0;
    canvas.line(x_of(minutes), top, x_of(minutes), below + plot_mm, 0.25, dash);
    const bool left = x_of(minutes) > 0.7 * width_mm;
    canvas.label(words, x_of(minutes) + (left ? -1.0 : 1.0), top,
                 left ? Anchor::end : Anchor::start);
  };
  for (const still::NextDecision& next : forecast.decisions) {
    if (next.at) {
      flag(next.at->median.minutes(), std::string(still::words(next.decision)), "1.2 0.8");
    }
  }
  flag(follower.now().at.minutes(), "latest reading", "");
  draw_plot(canvas, spout, x_ticks, x_low, x_high, top_mm);
  draw_plot(canvas, head, x_ticks, x_low, x_high, below);
  for (const double t : x_ticks.at) {
    canvas.label(x_ticks.text(t), x_of(t), below + plot_mm + 1.6, Anchor::middle);
  }
  canvas.label("minutes since the heat was turned on", width_mm - right_mm,
               below + plot_mm + 6.0, Anchor::end);
  out.close();
  drawing.svg = out.finish();
  return drawing;
}

namespace {

// Else there is no curve to draw.
bool runs_a_while(const still::Forecast& forecast) {
  return std::count_if(forecast.by_time.begin(), forecast.by_time.end(),
                       [](const still::ExpectedAt& at) { return at.running; }) >= 2;
}

Html decisions(const still::Forecast& forecast, System shown) {
  Table t;
  t.caption = "Decisions";
  t.columns = {{"Decision"}, {"When"}, {"Collected", Align::right}};
  for (const still::NextDecision& next : forecast.decisions) {
    std::string when = next.passed ? "passed" : still::why_no_time(next);
    if (next.at) {
      when = fmt::format("{}{:.0f} min ({:.0f} to {:.0f})", next.passed ? "passed at " : "at ",
                         next.at->median.minutes(), next.at->low.minutes(),
                         next.at->high.minutes());
    }
    t.rows.push_back({std::string(still::words(next.decision)), when,
                      next.collected ? units::print(next.collected->median, shown) : "–"});
  }
  return kept_together(
      table(t) +
      small_print("Minutes since the heat was turned on: median, and its 80 % band."));
}

Html taught(const still::Follower& follower) {
  Table t;
  t.caption = "What the run taught";
  t.columns = {{"Constant"}, {"Now"}, {"Before the run"}};
  for (const still::Learnt& learnt : follower.constants()) {
    if (!(learnt.before_sd > 0.0)) continue;  // the kit says that there is none
    const still::LearntWords says = still::words(learnt);
    t.rows.push_back({std::string(still::words(learnt.constant)), with_minus(says.now),
                      with_minus(says.before)});
  }
  return kept_together(table(t) + small_print("Means with their standard deviations."));
}

Html not_believed(const still::Follower& follower) {
  const std::vector<still::Doubt> doubts = follower.doubts();
  if (doubts.empty()) return {};
  Html part = heading("Kept, not believed");
  for (const still::Doubt& doubt : doubts) {
    part += paragraph(fmt::format(
        "{:.0f} min, {}: {} {}.", follower.readings()[doubt.reading].at.minutes(),
        still::words(doubt.instrument), still::shown(doubt), still::sentence(doubt)));
  }
  return part;
}

Html of_the_fire(const still::Follower& follower) {
  if (follower.fire().remarks.empty()) return {};
  Html part = heading("Of the fire");
  for (const still::FireRemark& remark : follower.fire().remarks) {
    part += paragraph(fmt::format("{:.0f} min: {}.",
                                  follower.readings()[remark.reading].at.minutes(),
                                  still::sentence(remark)));
  }
  return part;
}

}  // namespace

std::string follow_page(const still::Follower& follower, const still::Forecast& forecast,
                        std::string_view title, System system) {
  const System shown = system == System::us ? System::us : System::metric;
  const still::StillNow now = follower.now();
  Html body = runs_a_while(forecast)
                  ? figure(follow_picture(follower, forecast, shown),
                           "Line: median of what is expected; shaded: its 80 % band. Ring: a "
                           "reading, less what its instrument was found to show too much. "
                           "Cross: one that does not fit and is not believed.")
                  : paragraph("Nothing is expected to run, so there is no curve to draw.");
  if (const std::string says = still::fire_words(now); !says.empty()) {
    body += paragraph(fmt::format("At {:.0f} min {}.", now.at.minutes(), says));
  }
  if (const std::string low = still::pot_caution(now); !low.empty()) {
    body += caution("Caution", low);
  }
  body += caution("Caution",
                  "Never leave a heated still. If the coolant fails: heat off first. "
                  "Nothing here says that a spirit is safe.");
  body += decisions(forecast, shown) + taught(follower) + not_believed(follower) +
          of_the_fire(follower);
  Page page_of;
  page_of.title = std::string(title);
  page_of.subtitle = fmt::format("Followed to {:.0f} min", now.at.minutes());
  page_of.running_head = std::string(title);
  return page(page_of, body);
}

}  // namespace lynearm::sheet
