#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "faults_told.hpp"
#include "random_family.hpp"

namespace benchgraft::catalogue {
namespace {

PartType lamp() {
  PartType type;
  type.name = "A";
  type.kind = "lamp";
  type.roles = {"lamp"};
  return type;
}

/// Reads what was written and compares values and text; the text is shown when it does not hold.
void expect_round_trip(const Family& family) {
  const std::string text = write_family(family);
  const auto read = read_family(text, "written.toml");
  if (!read.ok()) RC_FAIL(read.error().message + "\n" + text);
  if (read.value() != family)
    RC_FAIL("other values:\n" + text + "\nread again:\n" + write_family(read.value()));
  RC_ASSERT(write_family(read.value()) == text);
}

RC_GTEST_PROP(Writing, gives_a_text_that_reads_back_as_the_same_family, ()) {
  expect_round_trip(random_family(*rc::gen::arbitrary<std::uint32_t>(), *rc::gen::inRange(1, 5)));
}

RC_GTEST_PROP(Writing, gives_a_text_that_reads_back_as_the_same_rebuild, ()) {
  const RebuildText rebuild =
      random_rebuild(*rc::gen::arbitrary<std::uint32_t>(), *rc::gen::inRange(1, 5));
  const std::string text = write_rebuild(rebuild);
  const auto read = read_rebuild(text, "written.toml");
  if (!read.ok()) RC_FAIL(read.error().message + "\n" + text);
  RC_ASSERT(read.value() == rebuild);
  RC_ASSERT(write_rebuild(read.value()) == text);
  for (const auto& part : rebuild.parts) {
    const auto changes = read_changes(write_changes(part.changes), "written.toml");
    RC_ASSERT(changes.ok());
    RC_ASSERT(changes.value() == part.changes);
  }
}

RC_GTEST_PROP(Writing, gives_a_text_that_reads_back_as_the_same_swap_note, ()) {
  for (const auto& note : random_family(*rc::gen::arbitrary<std::uint32_t>(), 4).notes) {
    const auto read = read_swap_note(write_swap_note(note), "written.toml");
    RC_ASSERT(read.ok());
    RC_ASSERT(read.value() == note);
  }
}

RC_GTEST_PROP(Writing, loses_no_digit_of_a_number, ()) {
  const auto bits = *rc::gen::arbitrary<std::uint64_t>();
  const double mass = std::abs(std::bit_cast<double>(bits));
  RC_PRE(std::isfinite(mass));
  Family family;
  family.name = "x";
  family.part_types.push_back(lamp());
  family.part_types[0].mass_kg = mass;
  expect_round_trip(family);
}

TEST(Writing, puts_one_fact_on_a_line_in_the_order_of_the_page) {
  const std::string text = R"(format = 1
family = "tern"
note = """
Two lines,
one "note"."""

[[part_type]]
part_type = "LD-20"
revision = "B"
kind = "lamp driver"
roles = ["lamp driver"]
carries = [
  {piece = "earth braid", kind = "earth lead", after = ["lamp"]},
]
needs = []
rail = [
  {rail = "12 V", volts = [11.4, 12.6], amps = 0.8},
]
flip_default = "left-right"
price_minor = 2500

[[part_type.port]]
port = "CN1"
to = "display driver"
connector = {family = "2.0 mm crimp", ways = 5, gaps = [4], half = "socket"}
contacts = [
  {n = 1, signal = "enable", class = "signal", volts = 5, direction = "in"},
  {n = "A3", class = "unused"},
]
known = "measured"

[[model]]
model = "Tern 50"
kind = "single-chip rear projection"

[[model.position]]
position = "lamp driver"

[[model.variant]]
variant = "late"
[model.variant.parts]
"lamp driver" = "LD-20/B"
)";
  const auto read = read_family(text, "tern.toml");
  ASSERT_TRUE(read.ok()) << read.error().message;
  EXPECT_EQ(write_family(read.value()), text);
}

TEST(Writing, leaves_out_what_is_not_known) {
  Family family;
  family.name = "x";
  family.part_types.push_back(lamp());
  EXPECT_EQ(write_family(family),
            "format = 1\nfamily = \"x\"\n\n[[part_type]]\npart_type = \"A\"\nkind = "
            "\"lamp\"\nroles = [\"lamp\"]\n");
}

}  // namespace
}  // namespace benchgraft::catalogue
