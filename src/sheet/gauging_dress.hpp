// The style sheet of gauging tables: sizes from the layout, and what a phone makes of a sheet.
#pragma once

#include "sheet/gauging_layout.hpp"
#include "sheet/page.hpp"

namespace lynearm::sheet {

/// CSS that may stand inside a <style> element: it holds neither < nor &.
[[nodiscard]] Html gauging_dress(const spirit::GaugingTable& table, const GaugingLayout& layout,
                                 Paper paper);

}  // namespace lynearm::sheet
