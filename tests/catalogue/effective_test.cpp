#include "catalogue/effective.hpp"

#include <gmock/gmock.h>

#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::HasSubstr;

PartType driver(const std::string& more = "") {
  return family_of(R"([[part_type]]
part_type = "LD-20"
kind = "lamp driver"
roles = ["lamp driver"]
stores = ["lamp hours"]
carries = [{piece = "insulating sheet"}, {piece = "earth braid"}]
)" + more + R"(
[[part_type.port]]
port = "CN1"
connector = {family = "2.0 mm crimp", ways = 5, half = "plug", gaps = [4], key = "latch"}
lead_mm = 300
contacts = [
  {n = 1, signal = "enable", class = "signal"},
  {n = 2, signal = "lit", class = "signal"},
  {n = 3, class = "unused"},
]
[[part_type.port]]
port = "CN2"
)")
      .part_types[0];
}

PartType lead() {
  return family_of(R"([[part_type]]
part_type = "W-3"
kind = "lead"
roles = ["lamp driver lead"]
length_mm = 400
wire = [{from = "A.1", to = "B.1"}, {from = "A.2", to = "B.2"}]
[[part_type.port]]
port = "A"
[[part_type.port]]
port = "B"
)")
      .part_types[0];
}

std::vector<Change> changes(const std::string& text) {
  auto read = read_changes(text, "note");
  EXPECT_TRUE(read.ok()) << read.error().message;
  return read ? read.value() : std::vector<Change>{};
}

PartType after(const PartType& type, const std::string& text) {
  auto made = effective_type(type, changes(text));
  EXPECT_TRUE(made.ok()) << made.error().message;
  return made ? made.value() : type;
}

std::string told_after(const PartType& type, const std::string& text) {
  const auto made = effective_type(type, changes(text));
  return made ? "" : made.error().message;
}

const Contact& contact(const PartType& type, const std::string& number) {
  static const Contact kNone;
  for (const auto& own : *type.port("CN1")->contacts)
    if (own.number == number) return own;
  ADD_FAILURE() << "no contact " << number;
  return kNone;
}

TEST(EffectiveType, is_the_type_itself_without_changes) {
  EXPECT_EQ(after(driver(), ""), driver());
}

TEST(EffectiveType, has_a_plug_that_mates_with_nothing_after_it_was_cut) {
  const PartType cut =
      after(driver(), "[[change]]\nchange = \"plug cut\"\nport = \"CN1\"\nlead_mm = 280\n");
  const Port& port = *cut.port("CN1");
  EXPECT_EQ(port.connector.family, kCutPlug);
  EXPECT_EQ(port.connector.half, Half::plug);
  EXPECT_EQ(port.connector.ways, 5);
  EXPECT_EQ(port.connector.key, "");
  EXPECT_FALSE(port.connector.gaps.has_value());
  EXPECT_EQ(port.lead_mm, 280);
  EXPECT_EQ(port.contacts, driver().port("CN1")->contacts)
      << "the wires still carry what they carried";
  EXPECT_EQ(*cut.port("CN2"), *driver().port("CN2"));
}

TEST(EffectiveType, keeps_what_runs_on_a_contact_that_moved_to_an_empty_place) {
  const PartType moved =
      after(driver(), "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 1\nto = 5\n");
  EXPECT_EQ(contact(moved, "5").signal, "enable");
  EXPECT_EQ(contact(moved, "5").note, "Moved from contact 1.");
  EXPECT_EQ(contact(moved, "1").net_class, NetClass::unused) << "known to be empty now";
  EXPECT_EQ(contact(moved, "1").signal, "");
  EXPECT_EQ(contact(moved, "2"), contact(driver(), "2"));
}

TEST(EffectiveType, exchanges_two_contacts_when_the_place_is_taken) {
  const PartType moved =
      after(driver(), "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 1\nto = 2\n");
  EXPECT_EQ(contact(moved, "2").signal, "enable");
  EXPECT_EQ(contact(moved, "1").signal, "lit");
  EXPECT_EQ((*moved.port("CN1")->contacts)[0].number, "1")
      << "the list keeps the order of the plug";
  const PartType back =
      after(moved, "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 1\nto = 2\n");
  EXPECT_EQ(contact(back, "1").signal, "enable");
}

TEST(EffectiveType, takes_moves_that_follow_one_another_as_one_re_pin) {
  const auto move = [](const std::string& from, const std::string& to) {
    return "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = " + from +
           "\nto = " + to + "\n";
  };
  const PartType exchanged = after(driver(), move("1", "2") + move("2", "1"));
  EXPECT_EQ(contact(exchanged, "2").signal, "enable")
      << "both moves of one exchange are read off the plug";
  EXPECT_EQ(contact(exchanged, "1").signal, "lit");
  EXPECT_EQ(exchanged.port("CN1")->contacts->size(), 3U) << "no contact is there twice";
  const PartType round = after(driver(), move("2", "3") + move("1", "2") + move("3", "1"));
  EXPECT_EQ(contact(round, "2").signal, "enable");
  EXPECT_EQ(contact(round, "3").signal, "lit");
  EXPECT_EQ(contact(round, "1").net_class, NetClass::unused);
  const PartType chain = after(driver(), move("1", "2") + move("2", "5"));
  EXPECT_EQ(contact(chain, "2").signal, "enable");
  EXPECT_EQ(contact(chain, "5").signal, "lit");
  EXPECT_EQ(chain.port("CN1")->contacts->size(), 4U);
  EXPECT_EQ(contact(chain, "1").net_class, NetClass::unused) << "left empty";
  const PartType pushed = after(driver(), move("1", "2") + move("2", "3"));
  EXPECT_EQ(contact(pushed, "3").signal, "lit");
  EXPECT_EQ(contact(pushed, "1").net_class, NetClass::unused) << "the unused one made room";
  EXPECT_THAT(told_after(driver(), move("1", "2") + move("1", "3")),
              HasSubstr("contact 1 of port \"CN1\" is moved twice"));
  EXPECT_THAT(told_after(driver(), move("1", "3") + move("2", "3")),
              HasSubstr("two contacts of port \"CN1\" are moved to 3"));
}

TEST(EffectiveType, moves_at_random_are_undone_by_the_moves_back) {
  const std::vector<std::vector<std::string>> kOrders{{"1", "2", "3"}, {"2", "3", "1"},
                                                      {"3", "1", "2"}, {"2", "1", "3"},
                                                      {"5", "1", "2"}, {"5", "3", "1"}};
  const std::string between = "[[change]]\nchange = \"memory changed\"\n";
  for (const auto& order : kOrders) {
    std::string there, back;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const std::string from = std::to_string(i + 1);
      if (from == order[i]) continue;
      there += "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = " + from +
               "\nto = " + order[i] + "\n";
      back += "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = " + order[i] +
              "\nto = " + from + "\n";
    }
    const PartType moved = after(driver(), there);
    for (std::size_t i = 0; i < order.size(); ++i)
      EXPECT_EQ(contact(moved, order[i]).signal, contact(driver(), std::to_string(i + 1)).signal);
    const PartType same = after(driver(), there + between + back);
    for (const std::string number : {"1", "2", "3"}) {
      EXPECT_EQ(contact(same, number).signal, contact(driver(), number).signal);
      EXPECT_EQ(contact(same, number).net_class, contact(driver(), number).net_class);
    }
  }
}

TEST(EffectiveType, leaves_an_unused_place_where_a_contact_was_taken_out) {
  const PartType gone =
      after(driver(), "[[change]]\nchange = \"contact removed\"\nport = \"CN1\"\nfrom = 2\n");
  EXPECT_EQ(contact(gone, "2").net_class, NetClass::unused);
  EXPECT_EQ(contact(gone, "2").signal, "");
  EXPECT_EQ(contact(gone, "2").note, "The contact was taken out.");
  EXPECT_EQ(gone.port("CN1")->contacts->size(), 3U);
}

TEST(EffectiveType, takes_a_new_contact_into_an_empty_or_unused_place) {
  const std::string add = "[[change]]\nchange = \"contact added\"\nport = \"CN1\"\ncontact = {n = ";
  EXPECT_EQ(contact(after(driver(), add + "3, signal = \"sync\"}\n"), "3").signal, "sync");
  EXPECT_EQ(contact(after(driver(), add + "5, signal = \"sync\"}\n"), "5").signal, "sync");
  EXPECT_THAT(told_after(driver(), add + "1}\n"),
              HasSubstr("contact 1 added is already on port \"CN1\" of \"LD-20\""));
  EXPECT_THAT(told_after(driver(), add + "6}\n"),
              HasSubstr("lies beyond the 5 ways of port \"CN1\""));
}

TEST(EffectiveType, loses_and_gains_pieces) {
  const PartType changed = after(
      driver(),
      "[[change]]\nchange = \"piece gone\"\npiece = \"earth braid\"\n"
      "[[change]]\nchange = \"piece added\"\npiece = \"ferrite\"\npiece_kind = \"ferrite\"\n");
  ASSERT_EQ(changed.carries->size(), 2U);
  EXPECT_EQ((*changed.carries)[0].name, "insulating sheet");
  EXPECT_EQ((*changed.carries)[1].name, "ferrite");
  EXPECT_EQ((*changed.carries)[1].kind, "ferrite");
  EXPECT_EQ(told_after(driver(), "[[change]]\nchange = \"piece gone\"\npiece = \"earth brade\"\n"),
            "note, line 1: piece gone names \"earth brade\", which \"LD-20\" does not carry; did "
            "you mean \"earth braid\"?");
  EXPECT_THAT(
      told_after(driver(), "[[change]]\nchange = \"piece added\"\npiece = \"earth braid\"\n"),
      HasSubstr("carries already"));
  EXPECT_THAT(told_after(driver(),
                         "[[change]]\nchange = \"piece gone\"\npiece = \"earth braid\"\n"
                         "[[change]]\nchange = \"piece gone\"\npiece = \"earth braid\"\n"),
              HasSubstr("does not carry"))
      << "a piece is lost only once";
}

TEST(EffectiveType, has_the_new_length_of_a_replaced_lead_or_none_when_nobody_wrote_it) {
  const std::string port = "[[change]]\nchange = \"lead replaced\"\nport = \"CN1\"\n";
  EXPECT_EQ(after(driver(), port + "lead_mm = 450\n").port("CN1")->lead_mm, 450);
  EXPECT_EQ(after(driver(), port + "from = 300\nto = 450\n").port("CN1")->lead_mm, 450);
  EXPECT_FALSE(after(driver(), port).port("CN1")->lead_mm.has_value());
  EXPECT_EQ(after(lead(), "[[change]]\nchange = \"lead replaced\"\nlead_mm = 500\n").length_mm,
            500);
}

TEST(EffectiveType, says_that_a_memory_was_changed_and_still_stores_the_setting) {
  const PartType changed =
      after(driver(), "[[change]]\nchange = \"memory changed\"\nsetting = \"lamp hours\"\n");
  EXPECT_EQ(changed.stores, driver().stores);
  EXPECT_EQ(changed.note, "On this part: the memory of the setting lamp hours was changed.");
  EXPECT_THAT(
      told_after(driver(), "[[change]]\nchange = \"memory changed\"\nsetting = \"lamp hour\"\n"),
      HasSubstr("does not store; did you mean \"lamp hours\"?"));
}

TEST(EffectiveType, moves_the_wires_of_a_lead_with_their_contacts) {
  const PartType moved =
      after(lead(), "[[change]]\nchange = \"contact moved\"\nport = \"A\"\nfrom = 1\nto = 2\n");
  EXPECT_EQ(moved.wires[0].from_contact, "2");
  EXPECT_EQ(moved.wires[0].to_contact, "1") << "the other end stays";
  EXPECT_EQ(moved.wires[1].from_contact, "1");
  const PartType gone =
      after(lead(), "[[change]]\nchange = \"contact removed\"\nport = \"B\"\nfrom = 2\n");
  ASSERT_EQ(gone.wires.size(), 1U);
  EXPECT_EQ(gone.wires[0].from_contact, "1");
  EXPECT_THAT(
      told_after(lead(),
                 "[[change]]\nchange = \"contact moved\"\nport = \"A\"\nfrom = 7\nto = 8\n"),
      HasSubstr("contact \"7\" is not on port \"A\""));
}

TEST(EffectiveType, names_the_nearest_port_and_the_contacts_there_are) {
  EXPECT_EQ(told_after(driver(), "[[change]]\nchange = \"plug cut\"\nport = \"CN11\"\n"),
            "note, line 1: plug cut names the port \"CN11\", which \"LD-20\" does not have; did "
            "you mean \"CN1\"?");
  EXPECT_EQ(
      told_after(driver(),
                 "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 4\nto = 5\n"),
      "note, line 1: contact \"4\" is not on port \"CN1\" of \"LD-20\"; its contacts are 1, 2 and "
      "3.");
  EXPECT_THAT(
      told_after(driver(),
                 "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 1\nto = 6\n"),
      HasSubstr("beyond the 5 ways"));
  EXPECT_THAT(told_after(driver(),
                         "[[change]]\nchange = \"plug cut\"\nport = \"CN1\"\n"
                         "[[change]]\nchange = \"plug cut\"\nport = \"CN1\"\n"),
              HasSubstr("already cut"));
}

TEST(EffectiveType, leaves_unknown_what_was_unknown_and_tells_the_change_in_a_note) {
  PartType bare = driver();
  bare.ports.reset();
  bare.carries.reset();
  const PartType changed = after(bare,
                                 "[[change]]\nchange = \"plug cut\"\nport = \"CN9\"\n"
                                 "[[change]]\nchange = \"piece added\"\npiece = \"ferrite\"\n"
                                 "[[change]]\nchange = \"piece gone\"\npiece = \"shield\"\n");
  EXPECT_FALSE(changed.ports.has_value());
  EXPECT_FALSE(changed.carries.has_value()) << "one added piece does not say what else it carries";
  EXPECT_EQ(changed.note,
            "On this part: plug cut at port CN9. On this part: the piece ferrite was added. On "
            "this part: the piece "
            "shield is gone.");
  PartType no_pins = driver();
  (*no_pins.ports)[0].contacts.reset();
  const PartType moved =
      after(no_pins,
            "[[change]]\nchange = \"contact moved\"\nport = \"CN1\"\nfrom = 1\nto = 2\n"
            "[[change]]\nchange = \"contact added\"\nport = \"CN1\"\ncontact = {n = 3}\n"
            "[[change]]\nchange = \"contact removed\"\nport = \"CN1\"\nfrom = 2\n");
  EXPECT_FALSE(moved.port("CN1")->contacts.has_value());
  EXPECT_EQ(moved.port("CN1")->note,
            "Contact 1 was moved to 2. Contact 3 was added. Contact 2 was taken out.");
}

TEST(EffectiveType, gives_nothing_when_a_later_change_is_wrong) {
  EXPECT_NE(told_after(driver(),
                       "[[change]]\nchange = \"plug cut\"\nport = \"CN1\"\n"
                       "[[change]]\nchange = \"piece gone\"\npiece = \"roof\"\n"),
            "");
}

}  // namespace
}  // namespace benchgraft::catalogue
