#include "wire/entry.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "journal/book.hpp"
#include "journal/invent.hpp"
#include "journal/kinds.hpp"

namespace lynearm::wire {
namespace {

using journal::Entry;
using journal::Inventor;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string an_id = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f";

std::string entry_with(std::string_view kind, std::string_view body,
                       std::string_view more = "") {
  return fmt::format(
      R"({{"id":"{}","stage":"mash","kind":"{}","version":1,"at":"2026-11-26T09:30:00Z",)"
      R"("body":{}{}}})",
      an_id, kind, body, more);
}

std::vector<std::string> told(const std::vector<base::Fault>& faults) {
  std::vector<std::string> lines;
  for (const base::Fault& fault : faults) {
    lines.push_back(fmt::format("{} | {} | {}", fault.field, fault.value, fault.accepted));
  }
  return lines;
}
std::vector<std::string> faults_of(const std::string& text) {
  const EntryRead read = read_entry(text);
  EXPECT_NE(read.entry.has_value(), !read.faults.empty());
  return told(read.faults);
}
std::vector<std::string> faults_in(std::string_view kind, std::string_view body) {
  return faults_of(entry_with(kind, body));
}

// ---- there and back

RC_GTEST_PROP(EntryJsonProperty, AnyEntryReadsBackTheSame, (std::uint64_t seed)) {
  Inventor inventor(seed);
  Entry entry;
  entry.id = inventor.any_id();
  entry.stage = static_cast<journal::Stage>(inventor.below(journal::stage_words.size()));
  entry.at.milliseconds = static_cast<std::int64_t>(inventor.below(7258118400000ULL));
  entry.body = inventor.any_body();
  if (inventor.chance(2)) entry.batch = inventor.any_id();
  if (inventor.chance(2)) entry.received = journal::minute(3);
  if (inventor.chance(2))
    entry.clock_ahead_ms = inventor.chance(2) ? -journal::most_clock_ahead_ms : 1;
  if (inventor.chance(2) || std::holds_alternative<journal::Struck>(entry.body)) {
    entry.corrects = inventor.any_id();
  }
  inventor.text("", entry.who, journal::most_who, false);
  inventor.text("", entry.typed, 200, false);
  const std::string text = entry_json(entry);
  const EntryRead read = read_entry(text);
  if (!read.entry) RC_FAIL(text + " " + told(read.faults).front());
  RC_ASSERT(entry_json(*read.entry) == text);
  RC_ASSERT(*read.entry == entry);
  RC_ASSERT(text.find('\n') == std::string::npos);
}

template <std::size_t... I>
void each_kind_once(std::index_sequence<I...>, std::uint64_t seed) {
  const auto one = [&](const journal::Body& body) {
    const std::string text = body_json(body);
    EXPECT_EQ(read_body(kind_of(body), 1, text), body) << text;
  };
  Inventor inventor(seed);
  (one(inventor.body<std::variant_alternative_t<I, journal::Body>>()), ...);
}

TEST(EntryJson, EveryKindOfBodyReadsBackTheSame) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    each_kind_once(std::make_index_sequence<std::variant_size_v<journal::Body> - 1>{}, seed);
  }
}

// A client posts more digits than are kept: what was read first and what the store reads back
// are one entry, or sending it again would be a conflict.
TEST(EntryJson, MoreDigitsThanAreKeptAreRoundedAtTheDoor) {
  for (const char* figure :
       {"65.912345678901234", "0.00012345678901234", "1e-300", "-0.0", "3.3333333333333333333",
        "0.0005700000000001", "99.99999999999999"}) {
    const EntryRead first = read_entry(
        entry_with("mash temperature", fmt::format(R"({{"temperature_C":{}}})", figure)));
    ASSERT_TRUE(first.entry) << figure;
    const EntryRead again = read_entry(entry_json(*first.entry));
    ASSERT_TRUE(again.entry) << figure;
    EXPECT_TRUE(same(*first.entry, *again.entry)) << figure;
    EXPECT_EQ(entry_json(*first.entry), entry_json(*again.entry)) << figure;
  }
}

RC_GTEST_PROP(EntryJsonProperty, AnyFigureSettlesAtOnce, ()) {
  const double scale = std::pow(10.0, *rc::gen::inRange(-14, 1));
  const double figure = scale * 1e-13 *
                        static_cast<double>(*rc::gen::inRange<std::int64_t>(
                            -200'000'000'000'000, 1'200'000'000'000'000));
  const std::string body = fmt::format(R"({{"temperature_C":{:.17g}}})", figure);
  const journal::Body first = read_body("mash temperature", 1, body);
  RC_ASSERT(read_body("mash temperature", 1, body_json(first)) == first);
}

TEST(EntryJson, AllButReceivedIsTheSame) {
  Entry one = *read_entry(entry_with("mash temperature", R"({"temperature_C":66})")).entry;
  Entry other = one;
  other.received = journal::minute(1);
  EXPECT_TRUE(same(one, other));
  other.who = "Wren";
  EXPECT_FALSE(same(one, other));
}

TEST(EntryJson, IsOneLineOfKnownKeys) {
  const Entry entry =
      *read_entry(entry_with("mash temperature", R"({"temperature_C":151e-1})")).entry;
  EXPECT_EQ(entry_json(entry),
            R"({"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","stage":"mash",)"
            R"("kind":"mash temperature","version":1,"at":"2026-11-26T09:30:00.000Z",)"
            R"("clock_ahead_ms":0,"body":{"temperature_C":15.1}})");
}

// ---- what is not known

TEST(EntryJson, AnUnknownKindIsKeptLetterForLetter) {
  const std::string body =
      R"({"z":1,"a":[1.5,null,true,"é\n\u0001"],"big":12345678901234567890,"n":-0.1})";
  const std::string text = entry_with("sky read", body);
  const EntryRead read = read_entry(text);
  ASSERT_TRUE(read.entry);
  const auto& foreign = std::get<journal::Foreign>(read.entry->body);
  EXPECT_EQ(foreign.kind, "sky read");
  EXPECT_EQ(foreign.text, body);
  const EntryRead again = read_entry(entry_json(*read.entry));
  ASSERT_TRUE(again.entry);
  EXPECT_EQ(*again.entry, *read.entry);
  EXPECT_EQ(body_json(read.entry->body), body);
  EXPECT_EQ(read_body("sky read", 1, body), read.entry->body);
}

TEST(EntryJson, ANewerVersionOfAKnownKindIsKeptLetterForLetter) {
  const journal::Body body = read_body("mash temperature", 2, R"({"temperature_K":339})");
  const auto* const foreign = std::get_if<journal::Foreign>(&body);
  ASSERT_NE(foreign, nullptr);
  EXPECT_EQ(foreign->version, 2);
  EXPECT_EQ(kind_of(body), "mash temperature");
}

// ---- faults

TEST(EntryFaults, AllAreToldWithPathValueAndWhatIsAccepted) {
  const auto lines = faults_of(
      R"({"id":"7","stage":"mashing","kind":"jar gauged","version":0,"at":"yesterday","who":7,)"
      R"("body":{"run":"x","jar":1.5,"volume":{"volume_L":-1,"at_C":"warm"},)"
      R"("strength":{"reading":70,"scale":"vol"}},"colour":"red"})");
  const std::vector<std::string> fields = [&] {
    std::vector<std::string> found;
    for (const std::string& line : lines) found.push_back(line.substr(0, line.find(' ')));
    return found;
  }();
  EXPECT_THAT(fields, testing::UnorderedElementsAre(
                          "entry.id", "entry.stage", "entry.version", "entry.at", "entry.who",
                          "entry.body.run", "entry.body.jar", "entry.body.volume.volume_L",
                          "entry.body.volume.at_C", "entry.body.strength.scale",
                          "entry.body.strength.at_C", "entry.colour"));
  EXPECT_THAT(
      lines, testing::Contains("entry.body.volume.volume_L | -1 | a number from 0 to 10000 L"));
  EXPECT_THAT(lines,
              testing::Contains(HasSubstr("entry.stage | mashing | \"kit\", \"mash bill\"")));
  EXPECT_THAT(lines, testing::Contains(HasSubstr("entry.at | yesterday | a date and time")));
}

TEST(EntryFaults, AnUnknownKeyNamesTheNearest) {
  EXPECT_THAT(faults_in("mash temperature", R"({"temperature_C":66,"temperatur_C":1})"),
              ElementsAre("entry.body.temperatur_C | an unknown key | did you mean "
                          "\"temperature_C\"? Accepted are the keys temperature_C"));
  EXPECT_THAT(faults_in("batch closed", R"({"x":1})"), ElementsAre(HasSubstr("entry.body.x")));
}

TEST(EntryFaults, BrokenTextIsOneFault) {
  EXPECT_THAT(faults_of("{"), ElementsAre(HasSubstr("no JSON from byte")));
  EXPECT_THAT(faults_of(R"({"id":1,"id":2})"), ElementsAre(HasSubstr("\"id\" twice")));
  EXPECT_THAT(
      faults_of(entry_with("mash temperature", R"({"temperature_C":66,"temperature_C":67})")),
      ElementsAre(HasSubstr("twice")));
  EXPECT_THAT(faults_in("mash temperature", R"({"temperature_C":NaN})"),
              ElementsAre(HasSubstr("no JSON from byte")));
  EXPECT_THAT(faults_in("mash temperature", R"({"temperature_C":1e999})"), testing::SizeIs(1));
  EXPECT_THAT(faults_in("sky read", std::string(40, '[') + std::string(40, ']')),
              ElementsAre(HasSubstr("nested too deep")));
  EXPECT_THAT(faults_of("[]"), ElementsAre(HasSubstr("an object")));
  EXPECT_THAT(faults_of("\xff"), testing::SizeIs(1));
  EXPECT_THAT(faults_in("note", "{\"text\":\"\xc3\x28\"}"), testing::SizeIs(1));
}

TEST(EntryFaults, TextsAreBoundedAndPlain) {
  EXPECT_THAT(faults_in("note", fmt::format(R"({{"text":"{}"}})", std::string(20'001, 'x'))),
              ElementsAre("entry.body.text | 20001 bytes | at most 20000 bytes"));
  EXPECT_THAT(faults_in("note", R"({"text":"a\u0007b"})"),
              ElementsAre("entry.body.text | a?b | a text without control characters"));
  EXPECT_THAT(faults_in("note", R"({"text":"a\nb\tc"})"), IsEmpty());
  EXPECT_THAT(faults_in("batch begun", R"({"name":"  ","invented":false})"),
              ElementsAre(HasSubstr("a text that says something")));
  const std::string huge(most_entry_bytes, 'x');
  EXPECT_THAT(faults_in("sky read", "{\"x\":\"" + huge + "\"}"),
              ElementsAre(HasSubstr("at most 2600000 bytes")));
}

TEST(EntryFaults, AReadingMustBeOnItsScale) {
  EXPECT_THAT(faults_in("lot brought",
                        R"({"name":"x","kind":"feints","volume":{"volume_L":1,"at_C":20},)"
                        R"("strength":{"reading":150,"scale":"percent_vol","at_C":20}})"),
              ElementsAre("entry.body.strength.reading | 150 | 0 to 100 on that scale"));
  EXPECT_THAT(faults_in("ferment read",
                        R"({"gravity":{"reading":80,"scale":"specific_gravity","at_C":20}})"),
              ElementsAre("entry.body.gravity.reading | 80 | 0.9 to 1.2 on that scale"));
  EXPECT_THAT(
      faults_in(
          "run read",
          fmt::format(R"({{"run":"{}","spout":{{"reading":250,"scale":"proof"}}}})", an_id)),
      ElementsAre("entry.body.spout.reading | 250 | 0 to 200 on that scale"));
  EXPECT_THAT(
      faults_in("run read",
                fmt::format(R"({{"run":"{}","event":"stopped","power_W":100}})", an_id)),
      ElementsAre(HasSubstr("entry.body.power_W")));
}

TEST(EntryFaults, WhatNoMemberAloneCanTellIsTold) {
  EXPECT_THAT(faults_in("note", "{}"), ElementsAre(HasSubstr("one of them at least")));
  EXPECT_THAT(faults_in("ferment read", "{}"), ElementsAre(HasSubstr("one of them at least")));
  EXPECT_THAT(faults_in("note", R"({"attachments":["abc"]})"),
              ElementsAre(HasSubstr("SHA-256")));
  const std::string pour =
      R"({"jar":3,"foreshots_mL_20C":0,"hearts_mL_20C":1,"feints_mL_20C":0,"apart_mL_20C":0})";
  EXPECT_THAT(faults_in("jars allotted",
                        fmt::format(R"({{"run":"{}","jars":[{},{}]}})", an_id, pour, pour)),
              ElementsAre("entry.body.jars[1].jar | 3 | each jar once"));
  EXPECT_THAT(faults_in("jars allotted", fmt::format(R"({{"run":"{}"}})", an_id)),
              ElementsAre(HasSubstr("one jar at least")));
}

TEST(EntryFaults, AnIdIsItsOwnAndACorrectionNamesAnother) {
  EXPECT_THAT(faults_in("struck", "{}"), ElementsAre(HasSubstr("entry.corrects")));
  EXPECT_THAT(faults_of(entry_with("struck", "{}", fmt::format(R"(,"corrects":"{}")", an_id))),
              ElementsAre(HasSubstr("another entry than itself")));
  std::string nil = entry_with("batch closed", "{}");
  nil.replace(nil.find(an_id), an_id.size(), "00000000-0000-0000-0000-000000000000");
  EXPECT_THAT(faults_of(nil), ElementsAre(HasSubstr("the nil UUID")));
  EXPECT_THAT(faults_of(entry_with("batch closed", "{}", R"(,"clock_ahead_ms":0.5)")),
              ElementsAre(HasSubstr("a whole number of ms")));
}

// ---- many at once

TEST(EntriesJson, AreReadTogetherWithTheirPlaces) {
  const std::string good = entry_with("batch closed", "{}");
  EXPECT_EQ(read_entries(fmt::format(R"({{"entries":[{},{}]}})", good, good)).size(), 2U);
  EXPECT_THAT(read_entries(R"({"entries":[]})"), IsEmpty());
  try {
    static_cast<void>(read_entries(
        fmt::format(R"({{"entries":[{},7,{}]}})", good, entry_with("batch closed", "[]"))));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_THAT(told(error.faults()),
                ElementsAre("entries[1] | 7 | an object", "entries[2].body | [] | an object"));
  }
}

TEST(EntriesJson, AreAListOfAtMostAThousand) {
  for (const std::string& text :
       {std::string("[]"), std::string("{}"), std::string(R"({"entries":{}})"),
        std::string(R"({"entries":[],"more":1})")}) {
    EXPECT_THROW(static_cast<void>(read_entries(text)), base::InputError) << text;
  }
  std::string many = R"({"entries":[7)";
  for (int i = 0; i < 1000; ++i) many += ",7";
  try {
    static_cast<void>(read_entries(many + "]}"));
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_THAT(told(error.faults()), ElementsAre("entries | 1001 of them | at most 1000"));
  }
}

}  // namespace
}  // namespace lynearm::wire
