#include "sheet/stream.hpp"

#include <algorithm>

#include "sheet/stream_layout.hpp"

namespace lynearm::sheet {

namespace {

constexpr std::string_view still_ours = "#d2d2d2";  // in the band, or kept
constexpr std::string_view expected = "#fff";       // planned, among what was measured
constexpr std::string_view dashes = "0.9 0.7";
constexpr double edge_mm = 0.18;
constexpr double bend_mm = StreamLayout::bend_mm;

class Picture {
 public:
  explicit Picture(const StreamLayout& layout) : layout_(layout) {}

  Drawing finish();

 private:
  void add(const Label& label);
  void shape(const Path& path, std::string_view fill, bool planned = false);
  void line(const Path& path, double width = edge_mm, bool planned = false);
  void band();
  void band(double from, double to, bool planned);
  void branch(const Branch& branch);
  void hair(const Branch& branch);
  void fall(const Branch& branch);
  void join(const Branch& branch);
  void side_names(const std::vector<EndPiece>& pieces, bool right);
  void heads();

  const StreamLayout& layout_;
  double shift_ = 0.0;  // from the layout's y, 0 at the band's first top, to the paper's
  Writer out_;
  std::vector<Label> labels_;
};

void Picture::add(const Label& label) {
  Label moved = label;
  moved.top += shift_;
  write(out_, moved);
  labels_.push_back(moved);
}

void Picture::shape(const Path& path, std::string_view fill, bool planned) {
  Attributes attributes = {{"d", path.data()},
                           {"fill", planned ? expected : fill},
                           {"stroke", "#000"},
                           {"stroke-width", edge_mm}};
  if (planned) attributes.emplace_back("stroke-dasharray", dashes);
  out_.leaf("path", attributes);
}

void Picture::line(const Path& path, double width, bool planned) {
  Attributes attributes = {
      {"d", path.data()}, {"fill", "none"}, {"stroke", "#000"}, {"stroke-width", width}};
  if (planned) attributes.emplace_back("stroke-dasharray", dashes);
  out_.leaf("path", attributes);
}

// Stages of one kind that follow each other are one piece of the band.
void Picture::band() {
  const auto& heads = layout_.heads;
  double from = layout_.start;
  for (std::size_t h = 0; h < heads.size(); ++h) {
    const bool last = h + 1 == heads.size();
    if (!last && heads[h + 1].planned == heads[h].planned) continue;
    const double to = last ? layout_.end : std::clamp(heads[h + 1].left, from, layout_.end);
    if (to > from) band(from, to, heads[h].planned);
    from = to;
  }
}

void Picture::band(double from, double to, bool planned) {
  const auto edge = [&](const std::vector<Step>& steps) {
    std::vector<std::pair<double, double>> points;
    double y = steps.front().before;
    for (const Step& step : steps) {
      if (step.x <= from) {
        y = step.y;
        continue;
      }
      if (points.empty()) points.emplace_back(from, y);
      if (step.x >= to) break;
      points.emplace_back(step.x, step.before);
      points.emplace_back(step.x, step.y);
      y = step.y;
    }
    if (points.empty()) points.emplace_back(from, y);
    points.emplace_back(to, points.back().second);
    return points;
  };
  const auto upper = edge(layout_.upper);
  auto lower = edge(layout_.lower);
  std::reverse(lower.begin(), lower.end());
  Path path;
  path.move(from, shift_ + upper.front().second);
  for (const auto& [x, y] : upper) path.line(x, shift_ + y);
  for (const auto& [x, y] : lower) path.line(x, shift_ + y);
  shape(path.shut(), still_ours, planned);
}

// A quarter turn out of the band, a stem and a point; the same form mirrored for up and down.
void Picture::fall(const Branch& b) {
  const double down = b.up ? -1.0 : 1.0;
  const double y = shift_ + b.edge;  // the edge of the band before the branch leaves
  const double in = y - down * b.width;
  const double foot = y + down * bend_mm;
  const double neck = shift_ + b.tip - down * b.point;
  const double left = b.x + bend_mm;
  const double right = left + b.width;
  const double barb = std::min(1.2, 0.3 + b.width / 6.0);
  Path path;
  path.move(b.x, in).arc(bend_mm + b.width, !b.up, right, foot);
  path.line(right, neck).line(right + barb, neck);
  path.line((left + right) / 2, shift_ + b.tip);
  path.line(left - barb, neck).line(left, neck).line(left, foot);
  path.arc(bend_mm, b.up, b.x, y).shut();
  shape(path, b.course == Course::lost ? "#fff" : still_ours, b.planned);
}

// From above into the band, notched at its upper end.
void Picture::join(const Branch& b) {
  const double y = shift_ + b.edge;  // the upper edge before it joins
  const double left = b.x;
  const double right = left + b.width;
  const double turn = y - b.width - bend_mm;
  Path path;
  path.move(left, shift_ + b.tip).line((left + right) / 2, shift_ + b.tip + b.point);
  path.line(right, shift_ + b.tip).line(right, turn);
  path.arc(bend_mm, false, right + bend_mm, y - b.width);
  path.line(right + bend_mm, y);
  path.arc(bend_mm + b.width, true, left, turn).shut();
  shape(path, still_ours, b.planned);
}

void Picture::hair(const Branch& b) {
  const double down = b.up ? -1.0 : 1.0;
  const double y = shift_ + b.edge;
  const double tip = shift_ + b.tip;
  Path path;
  Path point;
  if (b.course == Course::in) {
    path.move(b.x, tip).line(b.x, y - bend_mm).arc(bend_mm, false, b.x + bend_mm, y);
    point.move(b.x - 0.7, y - bend_mm - 1.6).line(b.x + 0.7, y - bend_mm - 1.6);
    point.line(b.x, y - bend_mm).shut();
  } else {
    const double x = b.x + bend_mm;
    path.move(b.x, y).arc(bend_mm, !b.up, x, y + down * bend_mm).line(x, tip);
    point.move(x - 0.7, tip - down * 1.6).line(x + 0.7, tip - down * 1.6).line(x, tip).shut();
  }
  line(path, 0.25, b.planned);
  out_.leaf("path", {{"d", point.data()}});
}

void Picture::branch(const Branch& b) {
  if (b.hair) {
    hair(b);
  } else if (b.course == Course::in) {
    join(b);
  } else {
    fall(b);
  }
  const Box text = b.name.box();
  Path pole;
  pole.move(b.pole, shift_ + b.tip);
  pole.line(b.pole, shift_ + (b.up ? text.top + 0.5 : b.figure.box().bottom - 0.5));
  line(pole, 0.15);
  add(b.name);
  add(b.figure);
}

void Picture::side_names(const std::vector<EndPiece>& pieces, bool right) {
  for (const EndPiece& piece : pieces) {
    const double middle = shift_ + (piece.top + piece.bottom) / 2;
    const double width = piece.bottom - piece.top;
    const double x = right ? layout_.end : layout_.start;
    if (right) {
      Path point;
      const double ahead = std::min(StreamLayout::ahead_mm, 0.8 + width / 3.0);
      point.move(x, middle - width / 2).line(x + ahead, middle);
      point.line(x, middle + width / 2).shut();
      shape(point, piece.unaccounted ? "#fff" : "#8c8c8c", piece.planned);
    } else if (piece.top > pieces.front().top) {
      Path cut;
      cut.move(x, shift_ + piece.top).line(x + 8.0, shift_ + piece.top);
      line(cut);
    }
    const Box name = piece.name.box();
    const Box both = {name.left, name.top, name.right, piece.figure.box().bottom};
    const double text_middle = shift_ + (both.top + both.bottom) / 2;
    Path leader;
    if (right) {
      leader.move(x + std::min(StreamLayout::ahead_mm, 0.8 + width / 3.0), middle);
      leader.line(x + StreamLayout::ahead_mm, middle);
      leader.line(piece.name.x - 0.8, text_middle);
    } else {
      leader.move(x, middle).line(x - 2.2, text_middle);
    }
    line(leader, 0.15);
    add(piece.name);
    add(piece.figure);
  }
}

void Picture::heads() {
  for (const StageHead& head : layout_.heads) {
    Path rule;
    rule.move(head.left, shift_ + head.rule).line(head.right - 1.5, shift_ + head.rule);
    line(rule, 0.3);
    add(head.name);
    add(head.figure);
    if (!head.plan.lines.empty()) add(head.plan);
    if (head.left > layout_.start && head.left < layout_.end) {
      out_.leaf("line", {{"x1", head.left},
                         {"x2", head.left},
                         {"y1", shift_ + head.band_top},
                         {"y2", shift_ + head.band_bottom},
                         {"stroke", "#fff"},
                         {"stroke-width", 0.6}});
    }
  }
}

Drawing Picture::finish() {
  shift_ = -layout_.top;
  const double height = layout_.bottom - layout_.top;
  std::string description = "The stream of pure alcohol.";
  for (const StageHead& head : layout_.heads) {
    description += " " + head.name.lines.front() + ": " + head.figure.lines.front() + ".";
  }
  open_drawing(out_, layout_.width, height, description);
  band();
  for (const Branch& b : layout_.branches) branch(b);
  side_names(layout_.entries, false);
  side_names(layout_.exits, true);
  heads();
  out_.close();
  return {out_.finish(), layout_.width, height, labels_};
}

}  // namespace

Stream draw(const std::vector<Flow>& flows, const StreamOptions& options) {
  const StreamLayout layout = lay_out(flows, options);
  Stream stream;
  static_cast<Drawing&>(stream) = Picture(layout).finish();
  stream.mm_per_litre = layout.mm_per_litre;
  stream.flow_mm = layout.flow_mm;
  stream.end_mm = layout.lower.back().y - layout.upper.back().y;
  stream.unaccounted_litres = layout.unaccounted_litres;
  return stream;
}

}  // namespace lynearm::sheet
