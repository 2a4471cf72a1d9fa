#include "recipe/document.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace lynearm::recipe {
namespace {

base::Fault only_fault(std::string_view text) {
  try {
    (void)parse_document(text, "recipe.toml");
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().size(), 1U);
    return error.faults().front();
  }
  ADD_FAILURE() << "read: " << text;
  return {};
}

TEST(Document, KnowsWhereEachValueStands) {
  const Document document = parse_document("a = 1\n\n[b]\n  c = \"x\"\n", "f.toml");
  EXPECT_EQ(document.root.find("a")->value.place, (Place{1, 5}));
  const Node::Entry* b = document.root.find("b");
  ASSERT_NE(b, nullptr);
  EXPECT_EQ(b->value.place.line, 3);
  EXPECT_EQ(b->value.find("c")->place, (Place{4, 3}));
  EXPECT_EQ(b->value.find("c")->value.place, (Place{4, 7}));
  EXPECT_EQ(document.root.find("d"), nullptr);
}

TEST(Document, KeepsValuesAsTheyWereEntered) {
  const Document document = parse_document(
      "a = 1_000 # c\nb = 4.50\nc = true\nd = 2024-05-01\n\"é\" = {e = 0x10, f = 1e3}\ng = nan",
      "");
  const auto entered = [&](const char* key) { return document.root.find(key)->value.entered; };
  EXPECT_EQ(entered("a"), "1_000");
  EXPECT_EQ(entered("b"), "4.50");
  EXPECT_EQ(entered("c"), "true");
  EXPECT_EQ(entered("d"), "2024-05-01");
  EXPECT_EQ(entered("g"), "nan");
  const Node& inline_table = document.root.find("é")->value;
  EXPECT_EQ(inline_table.find("e")->value.entered, "0x10");
  EXPECT_EQ(inline_table.find("f")->value.entered, "1e3");
}

TEST(Document, KeepsTheOrderOfTheText) {
  const Document document = parse_document("z = 1\na = 2\nm = 3\n", "");
  std::vector<std::string> keys;
  for (const Node::Entry& entry : document.root.entries) keys.push_back(entry.key);
  EXPECT_EQ(keys, (std::vector<std::string>{"z", "a", "m"}));
}

TEST(Document, AnEmptyTextIsAnEmptyTable) {
  EXPECT_TRUE(parse_document("", "").root.entries.empty());
  EXPECT_TRUE(parse_document("# only a remark\n", "").root.entries.empty());
}

TEST(Document, WhatIsNotTomlIsOneFaultWithItsPlace) {
  const base::Fault fault = only_fault("a = 1\nb = \nc = 3\n");
  EXPECT_EQ(fault.file, "recipe.toml");
  EXPECT_EQ(fault.line, 2);
  EXPECT_EQ(fault.field, "the text");
  EXPECT_EQ(fault.value, "not TOML");
  EXPECT_EQ(fault.accepted.substr(0, 53),
            "TOML, one key = value a line, such as volume = \"25 L\"");
  EXPECT_EQ(only_fault("volume = 25 L\n").line, 1);
  EXPECT_EQ(only_fault("a = 1\na = 2\n").line, 2);
  EXPECT_EQ(only_fault("a = 1\n[b\n").line, 2);
  EXPECT_EQ(only_fault("a = 1e400\n").line, 1);
  EXPECT_EQ(only_fault("a = 99999999999999999999\n").line, 1);
  EXPECT_GE(only_fault("a = \"\xff\"\n").line, 1);
  EXPECT_GE(only_fault(std::string(100000, '[')).line, 1);
}

TEST(Located, GivesAPathItsPlace) {
  const Document document = parse_document(
      "[mash]\nrest = {temperature = \"66 °C\"}\n[[mash_bill]]\nmass = \"1 "
      "kg\"\n[[mash_bill]]\n"
      "mass = \"2 kg\"\n",
      "r.toml");
  const auto place = [&](const char* field) {
    const base::Fault fault = located({field, "v", "a", "", 0, 0}, document);
    EXPECT_EQ(fault.file, "r.toml");
    return Place{fault.line, fault.column};
  };
  EXPECT_EQ(place("mash.rest.temperature"), (Place{2, 23}));
  EXPECT_EQ(place("mash_bill[1].mass"), (Place{4, 8}));
  EXPECT_EQ(place("mash_bill[2].mass"), (Place{6, 8}));
  EXPECT_EQ(place("mash_bill[2].price").line, 5);
  EXPECT_EQ(place("mash.rest.time").line, 2);
  EXPECT_EQ(place("nowhere"), (Place{0, 0}));
  // Paths that fit nothing are not a reason to fail.
  for (const char* odd : {"", ".", "[", "mash_bill[", "mash_bill[0].mass", "mash_bill[9].mass",
                          "mash_bill[x]", "mash[1]", "mash_bill[1]mass", "..", "mash..rest"}) {
    EXPECT_GE(place(odd).line, 0) << odd;
  }
}

TEST(Located, LeavesAPlaceThatIsKnown) {
  const base::Fault known{"a", "v", "x", "other.toml", 7, 1};
  EXPECT_EQ(located(known, parse_document("a = 1\n", "r.toml")), known);
}

}  // namespace
}  // namespace lynearm::recipe
