// What holds for every drawing: well formed, labels clear of each other and on the paper.
#pragma once

#include <gtest/gtest.h>

#include "sheet/letter.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {

inline void expect_clear(const Drawing& drawing) {
  EXPECT_EQ(fault_of_xml(drawing.svg.text), "");
  EXPECT_EQ(drawing.svg.text.find("nan"), std::string::npos);
  EXPECT_EQ(drawing.svg.text.find("inf"), std::string::npos);
  const double edge = 0.01;
  for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
    const Box a = drawing.labels[i].box();
    const std::string& name = drawing.labels[i].lines.front();
    EXPECT_GE(a.left, -edge) << name;
    EXPECT_GE(a.top, -edge) << name;
    EXPECT_LE(a.right, drawing.width_mm + edge) << name;
    EXPECT_LE(a.bottom, drawing.height_mm + edge) << name;
    for (std::size_t j = i + 1; j < drawing.labels.size(); ++j) {
      EXPECT_FALSE(overlap(a, drawing.labels[j].box()))
          << name << " and " << drawing.labels[j].lines.front();
    }
  }
}

}  // namespace lynearm::sheet
