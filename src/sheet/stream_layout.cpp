#include "sheet/stream_layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

#include "base/error.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

namespace {

constexpr double letter_mm = 2.9;
constexpr double name_width_mm = 28.0;                                 // at the ends
constexpr std::array name_widths_mm = {18.0, 22.0, 26.0, 32.0, 40.0};  // at the branches
constexpr double hair_share = 0.005;                                   // of all that comes in
constexpr double unseen_share = 0.001;  // an unaccounted rest below this is rounding
constexpr double stem_mm = 3.0;         // straight part of the shortest stem
constexpr double between_stems_mm = 2.2;
constexpr double row_gap_mm = 1.4;

class Layout {
 public:
  Layout(const std::vector<Flow>& flows, const StreamOptions& options)
      : flows_(flows), options_(options) {}

  StreamLayout finish();

 private:
  struct Item {  // a branch, with the stage it opens
    std::size_t flow;
    bool opens_stage;
  };

  void sort();
  void check_and_scale();
  void name_all();
  double place(int rows, bool write);
  void place_along();
  void wrap_names(double width_mm);
  [[nodiscard]] std::vector<Flag> flags(bool up) const;
  [[nodiscard]] double height_of_flags() const;
  void run_edges();
  void place_ends();
  void place_flags();
  void place_heads();

  [[nodiscard]] double litres(std::size_t i) const { return flows_[i].amount.litres(); }
  [[nodiscard]] std::string plain(double l) const {
    return units::fixed(l / options_.one_unit.litres(), options_.decimals) + " " +
           options_.unit;
  }
  [[nodiscard]] std::string with_share(double l) const {
    return plain(l) + " · " + units::fixed(100.0 * l / came_in_, 1) + " %";
  }
  static Label name_label(const std::string& text) {
    return {.lines = wrap(text, name_width_mm, letter_mm), .size_mm = letter_mm};
  }
  static Label figure_label(const std::string& text) {
    return {.lines = {text}, .size_mm = letter_mm, .weight = Weight::bold};
  }
  static double text_width(const Branch& b) {
    return std::max(b.name.width(), b.figure.width()) + 0.9;
  }
  static double text_height(const Branch& b) { return b.name.height() + b.figure.height(); }
  static double reach(const Branch& b) {  // from x to where the band's edge is free again
    return b.hair ? StreamLayout::bend_mm : StreamLayout::bend_mm + b.width;
  }
  static double pole_offset(const Branch& b) {
    if (b.course == Course::in) return b.hair ? 0.0 : b.width / 2;
    return StreamLayout::bend_mm + (b.hair ? 0.0 : b.width / 2);
  }

  const std::vector<Flow>& flows_;
  const StreamOptions& options_;
  StreamLayout out_;
  double came_in_ = 0.0;  // litres
  std::vector<std::size_t> entries_, exits_;
  std::vector<Item> items_;           // beside out_.branches
  std::vector<double> stage_litres_;  // beside out_.heads
  std::vector<std::size_t> opens_;    // beside out_.heads: its first branch, or branches.size()
  double entries_width_ = 0.0;
  double exits_width_ = 0.0;
};

// Which flows are the band's beginning, which leave at its end, which branch off between.
void Layout::sort() {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < flows_.size(); ++i) {
    base::ensure(std::isfinite(litres(i)) && litres(i) >= 0.0, "a flow is an amount");
    if (litres(i) > 0.0) order.push_back(i);
  }
  base::ensure(!order.empty() && flows_[order.front()].course == Course::in,
               "a stream begins with what comes in");
  // What leaves in the last stage leaves at the right, after everything else.
  const std::string& last = flows_[order.back()].stage;
  std::stable_partition(order.begin(), order.end(), [&](std::size_t i) {
    return flows_[i].course != Course::out || flows_[i].stage != last;
  });
  std::size_t first = 0;
  while (first < order.size() && flows_[order[first]].course == Course::in &&
         flows_[order[first]].stage == flows_[order.front()].stage) {
    entries_.push_back(order[first++]);
  }
  std::size_t end = order.size();
  while (end > first && flows_[order[end - 1]].course == Course::out) --end;
  exits_.assign(order.begin() + static_cast<std::ptrdiff_t>(end), order.end());
  for (std::size_t k = first; k < end; ++k) items_.push_back({order[k], false});
}

void Layout::check_and_scale() {
  for (const std::size_t i : entries_) came_in_ += litres(i);
  double now = came_in_;
  double most = now;
  for (const Item& item : items_) {
    if (flows_[item.flow].course == Course::in) came_in_ += litres(item.flow);
  }
  for (const Item& item : items_) {
    const bool in = flows_[item.flow].course == Course::in;
    now += in ? litres(item.flow) : -litres(item.flow);
    most = std::max(most, now);
    if (now < -unseen_share * came_in_) {
      throw base::InputError("flows[" + std::to_string(item.flow) + "].amount",
                             plain(litres(item.flow)),
                             "at most the " + plain(now + litres(item.flow)) + " that is left");
    }
  }
  out_.unaccounted_litres = now;
  for (const std::size_t i : exits_) out_.unaccounted_litres -= litres(i);
  // An end wider than what is left happens when more was measured than accounted for.
  most = std::max(most, now - out_.unaccounted_litres);
  out_.mm_per_litre = options_.band_mm / most;
  for (std::size_t i = 0; i < flows_.size(); ++i) {
    out_.flow_mm.push_back(litres(i) * out_.mm_per_litre);
  }
}

void Layout::name_all() {
  double now = 0.0;
  for (const std::size_t i : entries_) {
    now += litres(i);
    out_.entries.push_back(
        {.name = name_label(flows_[i].name), .figure = figure_label(plain(litres(i)))});
  }
  const auto head = [&](const std::string& stage, std::size_t first_branch) {
    out_.heads.push_back(
        {.name = {.lines = {stage}, .size_mm = letter_mm, .weight = Weight::bold},
         .figure = {.lines = {plain(now)}, .size_mm = letter_mm}});
    const auto mark = std::find_if(options_.stages.begin(), options_.stages.end(),
                                   [&](const StageMark& one) { return one.stage == stage; });
    if (mark != options_.stages.end()) {
      StageHead& made = out_.heads.back();
      made.planned = !mark->measured;
      if (mark->planned > units::Volume{}) {
        made.plan = {.lines = {"plan " + plain(mark->planned.litres())}, .size_mm = letter_mm};
      }
    }
    stage_litres_.push_back(now);
    opens_.push_back(first_branch);
  };
  std::string stage = flows_[entries_.front()].stage;
  head(stage, 0);
  for (Item& item : items_) {
    const Flow& flow = flows_[item.flow];
    item.opens_stage = flow.stage != stage;
    if (item.opens_stage) head(stage = flow.stage, out_.branches.size());
    Branch b;
    b.course = flow.course;
    b.planned = flow.planned;
    b.up = flow.course != Course::lost;
    b.width = out_.flow_mm[item.flow];
    b.hair = litres(item.flow) < hair_share * came_in_;
    b.point = b.hair ? 0.0 : std::min(3.0, 0.8 + b.width / 3.0);
    b.name = name_label(flow.name);
    b.figure =
        figure_label((flow.course == Course::in ? "+ " : "") + with_share(litres(item.flow)));
    out_.branches.push_back(b);
    now += flow.course == Course::in ? litres(item.flow) : -litres(item.flow);
  }
  if (!exits_.empty() && flows_[exits_.front()].stage != stage) {
    head(flows_[exits_.front()].stage, out_.branches.size());
  }
  for (const std::size_t i : exits_) {
    out_.exits.push_back({.planned = flows_[i].planned,
                          .name = name_label(flows_[i].name),
                          .figure = figure_label(with_share(litres(i)))});
  }
  if (std::abs(out_.unaccounted_litres) > unseen_share * came_in_) {
    out_.exits.push_back({.unaccounted = true,
                          .name = name_label("unaccounted"),
                          .figure = figure_label(with_share(out_.unaccounted_litres))});
  }
  const auto widest = [](const std::vector<EndPiece>& pieces) {
    double w = 0.0;
    for (const EndPiece& p : pieces) w = std::max({w, p.name.width(), p.figure.width()});
    return w;
  };
  entries_width_ = widest(out_.entries) + 3.0;
  exits_width_ = StreamLayout::ahead_mm + 2.8 + widest(out_.exits);
}

void Layout::wrap_names(double width_mm) {
  for (std::size_t i = 0; i < out_.branches.size(); ++i) {
    out_.branches[i].name.lines = wrap(flows_[items_[i].flow].name, width_mm, letter_mm);
  }
}

// Puts each branch as far left as it goes when labels may use `rows` rows on either side.
// Returns the end of the band that needs.
double Layout::place(int rows, bool write) {
  const double first_x = entries_width_ + (entries_.size() > 1 ? 5.0 : 2.5);
  std::vector<double> xs;
  std::vector<double> head_lefts = {0.0};
  std::size_t next_head = 1;
  const auto head_width = [&](std::size_t h) {
    const StageHead& head = out_.heads[h];
    const double plan = head.plan.lines.empty() ? 0.0 : head.plan.width();
    return std::max({head.name.width(), head.figure.width(), plan}) + 4.0;
  };
  struct Side {
    double free = 0.0;              // the next stem begins here at the earliest
    std::vector<double> text_ends;  // by row
  };
  Side sides[2];
  for (Side& side : sides) side.text_ends.assign(static_cast<std::size_t>(rows), 0.0);
  double x = first_x;
  for (std::size_t i = 0; i < out_.branches.size(); ++i) {
    const Branch& b = out_.branches[i];
    if (next_head < opens_.size() && opens_[next_head] == i) {
      const double left = std::max(head_lefts.back() + head_width(next_head - 1),
                                   xs.empty() ? first_x : xs.back() + 2.5);
      head_lefts.push_back(left);
      x = std::max(x, left + 2.0);
      ++next_head;
    }
    Side& side = sides[b.up ? 1 : 0];
    x = std::max(x, side.free);
    // The label takes the farthest row that its pole reaches without meeting a text. When there
    // is none, all the texts so far are let pass first.
    const double pole = x + pole_offset(b);
    std::size_t row = 0;
    while (row < side.text_ends.size() && side.text_ends[row] <= pole) ++row;
    if (row == 0) {
      x += *std::max_element(side.text_ends.begin(), side.text_ends.end()) - pole;
      row = side.text_ends.size();
    }
    --row;
    xs.push_back(x);
    side.text_ends[row] = x + pole_offset(b) + text_width(b) + 1.4;
    side.free = x + reach(b) + between_stems_mm;
    x += 2.2;
  }
  double end = std::max({x, sides[0].free, sides[1].free}) + 3.0;
  if (next_head < opens_.size()) {  // a stage with exits alone
    const double left = std::max(head_lefts.back() + head_width(next_head - 1), x + 1.0);
    head_lefts.push_back(left);
    end = std::max(end, left + 5.0);
  }
  end = std::max(end, head_lefts.back() + head_width(head_lefts.size() - 1) - exits_width_);
  for (const Side& side : sides) {
    for (const double text_end : side.text_ends) end = std::max(end, text_end - exits_width_);
  }
  if (!write) return end;

  const double slack = out_.width - exits_width_ - end;
  const double share = slack / static_cast<double>(xs.size() + 1);
  for (std::size_t i = 0; i < xs.size(); ++i) {
    out_.branches[i].x = xs[i] + share * static_cast<double>(i + 1);
    out_.branches[i].pole = out_.branches[i].x + pole_offset(out_.branches[i]);
  }
  for (std::size_t h = 0; h < head_lefts.size(); ++h) {
    const double before = h == 0 ? 0.0 : static_cast<double>(opens_[h]) + 0.6;
    out_.heads[h].left = head_lefts[h] + share * before;
    if (h > 0) out_.heads[h - 1].right = out_.heads[h].left;
  }
  out_.heads.back().right = out_.width + 1.5;
  return end;
}

std::vector<Flag> Layout::flags(bool up) const {
  std::vector<Flag> flags;
  for (const Branch& b : out_.branches) {
    if (b.up == up) flags.push_back({b.pole, text_width(b) + 1.4, text_height(b) + row_gap_mm});
  }
  return flags;
}

// The height that the labels on both sides take.
double Layout::height_of_flags() const {
  double height = 0.0;
  for (const bool up : {false, true}) {
    const std::vector<Flag> hung = flags(up);
    const std::vector<double> feet = fly(hung);
    double side = 0.0;
    for (std::size_t k = 0; k < hung.size(); ++k)
      side = std::max(side, feet[k] + hung[k].height);
    height += side;
  }
  return height;
}

// Tries narrow and wide names, few rows and many; the lowest picture that fits the paper wins.
void Layout::place_along() {
  const int most = static_cast<int>(out_.branches.size()) + 1;
  double least = std::numeric_limits<double>::infinity();
  double best_width = name_widths_mm.front();
  int best_rows = most;
  for (const double width : name_widths_mm) {
    wrap_names(width);
    for (int rows = 1; rows <= most; ++rows) {
      out_.width = options_.width_mm;
      const double needed = place(rows, false) + exits_width_;
      // Wider than the paper only when nothing else is left.
      const double too_wide = needed > out_.width ? 1e3 * (needed - out_.width) : 0.0;
      out_.width = std::max(out_.width, needed);
      place(rows, true);
      const double cost = height_of_flags() + too_wide;
      if (cost < least) {
        least = cost;
        best_width = width;
        best_rows = rows;
      }
    }
  }
  wrap_names(best_width);
  out_.width = std::max(options_.width_mm, place(best_rows, false) + exits_width_);
  place(best_rows, true);
  out_.start = entries_width_;
  out_.end = out_.width - exits_width_;
}

void Layout::run_edges() {
  double upper = 0.0;
  double lower = 0.0;
  for (const std::size_t i : entries_) lower += out_.flow_mm[i];
  out_.upper = {{out_.start, upper, upper}};
  out_.lower = {{out_.start, lower, lower}};
  std::size_t next_head = 1;
  const auto cut = [&](std::size_t i) {
    if (next_head < opens_.size() && opens_[next_head] == i) {
      out_.heads[next_head].band_top = upper;
      out_.heads[next_head].band_bottom = lower;
      ++next_head;
    }
  };
  for (std::size_t i = 0; i < out_.branches.size(); ++i) {
    cut(i);
    Branch& b = out_.branches[i];
    if (!b.up) {
      b.edge = lower;
      out_.lower.push_back({b.x, lower, lower - b.width});
      lower -= b.width;
    } else if (b.course == Course::in) {
      b.edge = upper;
      out_.upper.push_back({b.x + reach(b), upper, upper - b.width});
      upper -= b.width;
    } else {
      b.edge = upper;
      out_.upper.push_back({b.x, upper, upper + b.width});
      upper += b.width;
    }
  }
  cut(out_.branches.size());
}

// Names beside the two ends, one under the other, each as near its piece as the others let it.
void Layout::place_ends() {
  const auto stack = [&](std::vector<EndPiece>& pieces, double from,
                         const std::vector<double>& widths, double x) {
    std::vector<double> wanted;
    std::vector<double> heights;
    for (std::size_t k = 0; k < pieces.size(); ++k) {
      pieces[k].top = from;
      pieces[k].bottom = from += widths[k];
      wanted.push_back((pieces[k].top + pieces[k].bottom) / 2);
      heights.push_back(pieces[k].name.height() + pieces[k].figure.height() + row_gap_mm);
    }
    const std::vector<double> centres = spread(wanted, heights, -1e6, 1e6);
    for (std::size_t k = 0; k < pieces.size(); ++k) {
      pieces[k].name.x = pieces[k].figure.x = x;
      pieces[k].name.top = centres[k] - (heights[k] - row_gap_mm) / 2;
      pieces[k].figure.top = pieces[k].name.top + pieces[k].name.height();
    }
  };
  std::vector<double> widths;
  for (const std::size_t i : entries_) widths.push_back(out_.flow_mm[i]);
  stack(out_.entries, 0.0, widths, 0.0);
  widths.clear();
  for (const std::size_t i : exits_) widths.push_back(out_.flow_mm[i]);
  // A shortfall takes its place at the end of the band; an excess has none.
  widths.push_back(std::max(0.0, out_.unaccounted_litres * out_.mm_per_litre));
  stack(out_.exits, out_.upper.back().y, widths, out_.end + StreamLayout::ahead_mm + 2.8);
}

void Layout::place_flags() {
  double top = 0.0;
  double bottom = 0.0;
  for (const Step& step : out_.upper) top = std::min(top, step.y);
  for (const Step& step : out_.lower) bottom = std::max(bottom, step.y);
  const double band_top = top;
  const double band_bottom = bottom;
  for (const auto* pieces : {&out_.entries, &out_.exits}) {
    for (const EndPiece& p : *pieces) {
      top = std::min(top, p.name.top - row_gap_mm);
      bottom = std::max({bottom, p.bottom + 1.2, p.figure.box().bottom + row_gap_mm});
    }
  }
  for (const bool up : {false, true}) {
    const double tip =
        up ? std::min(top, band_top - StreamLayout::bend_mm - stem_mm - 3.0)
           : std::max(bottom, band_bottom + StreamLayout::bend_mm + stem_mm + 3.0);
    const std::vector<double> feet = fly(flags(up));
    std::size_t k = 0;
    for (Branch& b : out_.branches) {
      if (b.up != up) continue;
      b.tip = tip;
      const double away = feet[k++] + 0.6;
      b.name.x = b.figure.x = b.pole + 0.9;
      b.name.top = up ? tip - away - text_height(b) : tip + away;
      b.figure.top = b.name.top + b.name.height();
      top = std::min(top, b.name.top - row_gap_mm);
      bottom = std::max(bottom, b.figure.box().bottom + 0.5);
    }
  }
  out_.top = top;
  out_.bottom = bottom;
}

void Layout::place_heads() {
  const bool plans = std::any_of(out_.heads.begin(), out_.heads.end(),
                                 [](const auto& head) { return !head.plan.lines.empty(); });
  const double height = (plans ? 3 : 2) * letter_mm * line_height + 1.0;
  const double rule = out_.top - 2.0;
  for (StageHead& head : out_.heads) {
    head.rule = rule;
    head.name.x = head.figure.x = head.left;
    head.name.top = rule - height;
    head.figure.top = head.name.top + head.name.height();
    head.plan.x = head.left;
    head.plan.top = head.figure.top + head.figure.height();
  }
  out_.top = rule - height;
}

StreamLayout Layout::finish() {
  sort();
  check_and_scale();
  name_all();
  place_along();
  run_edges();
  place_ends();
  place_flags();
  place_heads();
  return out_;
}

}  // namespace

StreamLayout lay_out(const std::vector<Flow>& flows, const StreamOptions& options) {
  return Layout(flows, options).finish();
}

}  // namespace lynearm::sheet
