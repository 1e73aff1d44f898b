#include <gmock/gmock.h>

#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::HasSubstr;

std::string board(const std::string& lines) {
  return "[[part_type]]\npart_type = \"MB-7\"\nkind = \"main board\"\nroles = [\"picture "
         "processing\"]\n" +
         lines;
}

TEST(Checks, refuse_a_part_type_written_twice) {
  EXPECT_EQ(told(board("revision = \"B\"\n") + board("revision = \"B\"\n")),
            "tern.toml, line 8: part type \"MB-7/B\" is already written in line 3; rename one or "
            "take it away.");
  EXPECT_EQ(told(board("revision = \"B\"\n") + board("revision = \"C\"\n")), "");
}

TEST(Checks, refuse_other_names_written_twice) {
  EXPECT_THAT(
      told(board("[[part_type.port]]\nport = \"CN1\"\n[[part_type.port]]\nport = \"CN1\"\n")),
      HasSubstr("line 9: port \"CN1\" is already written in line 7"));
  EXPECT_THAT(
      told(board("[[part_type.port]]\nport = \"CN1\"\ncontacts = [{n = 1},\n{n = \"1\"}]\n")),
      HasSubstr(
          "line 10: contact of port \"CN1\" with the number \"1\" is already written in line 9"));
  EXPECT_THAT(told(board("carries = [{piece = \"shield\"},\n{piece = \"shield\"}]\n")),
              HasSubstr("line 8: piece \"shield\" is already written in line 7"));
  EXPECT_THAT(told(board("rail = [{rail = \"5 V\"}, {rail = \"5 V\"}]\n")),
              HasSubstr("rail \"5 V\" is already written"));
  EXPECT_THAT(told(board("counter = [{counter = \"h\"}, {counter = \"h\"}]\n")),
              HasSubstr("counter \"h\" is already written"));
  const std::string model = "[[model]]\nmodel = \"M\"\nkind = \"K\"\n";
  EXPECT_THAT(told(model + model), HasSubstr("line 6: model \"M\" is already written in line 3"));
  EXPECT_THAT(
      told(model + "[[model.position]]\nposition = \"a\"\n[[model.position]]\nposition = \"a\"\n"),
      HasSubstr("line 8: position \"a\" is already written in line 6"));
  EXPECT_THAT(
      told(model + "[[model.variant]]\nvariant = \"v\"\n[[model.variant]]\nvariant = \"v\"\n"),
      HasSubstr("line 8: variant \"v\" is already written in line 6"));
  for (const std::string thing : {"adaptation", "setting", "part_kind", "set_kind"})
    EXPECT_THAT(told("[[" + thing + "]]\n" + thing + " = \"x\"\n[[" + thing + "]]\n" + thing +
                     " = \"x\"\n"),
                HasSubstr("line 5: "))
        << thing;
  EXPECT_THAT(
      told("[[set_kind]]\nset_kind = \"K\"\nrole = [{role = \"lamp\"}, {role = \"lamp\"}]\n"),
      HasSubstr("role \"lamp\" is already written"));
  const std::string limit =
      "[[touch_limit]]\nprofile = \"P\"\nedition = \"1\"\ntest = \"t\"\nmilliamps = 1\n";
  EXPECT_THAT(told(limit + limit),
              HasSubstr("touch limit \"P 1, t, class any\" is already written in line 3"));
}

TEST(Checks, refuse_contacts_that_the_connector_has_no_way_for) {
  const std::string port = "[[part_type.port]]\nport = \"CN1\"\nconnector = {ways = 2}\n";
  EXPECT_EQ(
      told(board(port + "contacts = [{n = 1}, {n = 2},\n{n = 3}]\n")),
      "tern.toml, line 7: port \"CN1\" has 2 ways but 3 contacts; correct ways or the contacts.");
  EXPECT_EQ(
      told(board(port + "contacts = [{n = 5}]\n")),
      "tern.toml, line 10: contact 5 lies beyond the 2 ways of port \"CN1\"; correct n or ways.");
  EXPECT_EQ(
      told(board("[[part_type.port]]\nport = \"CN1\"\nconnector = {ways = 2, gaps = [3]}\n")),
      "tern.toml, line 7: gap 3 lies beyond the 2 ways of port \"CN1\"; correct gaps or ways.");
}

TEST(Checks, count_contacts_from_one) {
  for (const std::string n : {"0", "-1", "\"007\""})
    EXPECT_THAT(told(board("[[part_type.port]]\nport = \"CN1\"\ncontacts = [{n = " + n + "}]\n")),
                HasSubstr("is not counted from 1"))
        << n;
  for (const std::string mark : {"A0", "1-2", "9--3"})
    EXPECT_EQ(
        told(board("[[part_type.port]]\nport = \"CN1\"\ncontacts = [{n = \"" + mark + "\"}]\n")),
        "")
        << mark;
}

TEST(Checks, keep_the_letters_that_join_names_out_of_names) {
  EXPECT_THAT(told(board("[[part_type.port]]\nport = \"CN:1\"\n")),
              HasSubstr("port \"CN:1\" must not hold a \":\""));
  EXPECT_THAT(told(board("[[part_type.port]]\nport = \"C\"\ncontacts = [{n = \"A.1\"}]\n")),
              HasSubstr("contact \"A.1\" must not hold a \".\""));
  EXPECT_THAT(told(board("revision = \"a:b\"\n")),
              HasSubstr("revision \"a:b\" must not hold a \":\""));
}

TEST(Checks, refuse_a_rail_that_is_not_listed_when_rails_are) {
  const std::string port =
      "[[part_type.port]]\nport = \"CN1\"\ncontacts = [{n = 1, rail = \"12 w\"}]\n";
  EXPECT_EQ(told(board("rail = [{rail = \"12 V\"}]\n" + port)),
            "tern.toml, line 10: rail = \"12 w\" is not a rail of part type \"MB-7\"; did you mean "
            "\"12 V\"?");
  EXPECT_EQ(told(board(port)), "") << "no rails listed: not known";
}

TEST(Checks, refuse_a_wire_to_nowhere) {
  const auto lead = [](const std::string& from) {
    return "[[part_type]]\npart_type = \"W1\"\nkind = \"lead\"\nroles = [\"rail lead\"]\nwire = "
           "[\n{from = \"" +
           from +
           "\", to = \"B.1\"}]\n[[part_type.port]]\nport = \"A\"\nconnector = {ways = 2}\ncontacts "
           "= [{n = 1}]\n"
           "[[part_type.port]]\nport = \"B\"\nconnector = {ways = 4}\n";
  };
  EXPECT_EQ(told(lead("A.1")), "");
  EXPECT_EQ(
      told(lead("C.1")),
      "tern.toml, line 8: the wire names the end \"C\", which is not a port of part type \"W1\"; "
      "did you mean \"A\"?");
  EXPECT_EQ(
      told(lead("A.2")),
      "tern.toml, line 8: the wire ends at contact \"2\", which \"A\" does not have; its contacts "
      "are 1.");
  EXPECT_EQ(
      told(lead("A.9")),
      "tern.toml, line 8: the wire ends at contact 9, beyond the 2 ways of \"A\"; correct one.");
  EXPECT_EQ(told(lead("A")), "tern.toml, line 8: from = \"A\" must be text like \"END.CONTACT\".");
  EXPECT_EQ(told(lead(".1")),
            "tern.toml, line 8: from = \".1\" must be text like \"END.CONTACT\".");
}

TEST(Checks, name_the_circle_of_things_that_wait_for_each_other) {
  EXPECT_EQ(told(board("carries = [{piece = \"sheet\", after = [\"braid\"]}, {piece = \"braid\", "
                       "after = [\"sheet\"]}]\n")),
            "tern.toml, line 3: pieces of part type \"MB-7\" wait for each other in a circle: "
            "\"braid\" waits for "
            "\"sheet\", which waits for \"braid\"; take one \"after\" away.");
  EXPECT_EQ(told("[[model]]\nmodel = \"M\"\nkind = \"K\"\n[[model.position]]\nposition = "
                 "\"a\"\nafter = [\"c\"]\n"
                 "[[model.position]]\nposition = \"b\"\nafter = "
                 "[\"a\"]\n[[model.position]]\nposition = \"c\"\n"
                 "after = [\"b\"]\n"),
            "tern.toml, line 3: positions of model \"M\" wait for each other in a circle: \"a\" "
            "waits for \"c\", which "
            "waits for \"b\", which waits for \"a\"; take one \"after\" away.");
  EXPECT_EQ(told("[[setting]]\nsetting = \"s\"\nafter = [\"s\"]\n"),
            "tern.toml, line 3: settings wait for each other in a circle: \"s\" waits for itself; "
            "take one \"after\" away.");
  EXPECT_THAT(told("[[adaptation]]\nadaptation = \"p\"\nneeds = "
                   "[\"q\"]\n[[adaptation]]\nadaptation = \"q\"\n"
                   "needs = [\"p\"]\n"),
              HasSubstr("adaptations need each other in a circle: \"p\" waits for \"q\""));
  EXPECT_THAT(told("[[set_kind]]\nset_kind = \"K\"\nrole = [{role = \"a\", after = [\"b\"]}, {role "
                   "= \"b\", after = "
                   "[\"a\"]}]\n"),
              HasSubstr("roles of set kind \"K\" wait for each other in a circle"));
}

TEST(Checks, name_only_the_circle_and_not_who_waits_for_it) {
  EXPECT_EQ(told("[[setting]]\nsetting = \"a\"\nafter = [\"b\"]\n"
                 "[[setting]]\nsetting = \"b\"\nafter = [\"c\"]\n"
                 "[[setting]]\nsetting = \"c\"\nafter = [\"b\"]\n"),
            "tern.toml, line 6: settings wait for each other in a circle: \"b\" waits for \"c\", "
            "which waits "
            "for \"b\"; take one \"after\" away.");
}

TEST(Checks, find_a_circle_behind_a_long_chain) {
  std::string chain = "[[setting]]\nsetting = \"s0\"\nafter = [\"s1999\"]\n";
  for (int i = 1; i < 20000; ++i)
    chain += "[[setting]]\nsetting = \"s" + std::to_string(i) + "\"\nafter = [\"s" +
             std::to_string(i - 1) + "\"]\n";
  EXPECT_THAT(told(chain), HasSubstr("settings wait for each other in a circle"));
}

TEST(Checks, refuse_a_variant_with_a_part_in_no_position) {
  EXPECT_EQ(told("[[model]]\nmodel = \"M\"\nkind = \"K\"\n[[model.position]]\nposition = "
                 "\"lamp\"\n[[model.variant]]\n"
                 "variant = \"v\"\nparts = {lmap = \"L1\"}\n"),
            "tern.toml, line 8: variant \"v\" puts \"L1\" into \"lmap\", which is not a position "
            "of its model; did you "
            "mean \"lamp\"?");
}

TEST(Checks, refuse_directions_and_mirrors_that_cannot_be) {
  const std::string model = "[[model]]\nmodel = \"M\"\nkind = \"K\"\n";
  EXPECT_THAT(told(model + "optics = {beam = [0, 0, 0]}\n"),
              HasSubstr("beam = [0, 0, 0] of model \"M\" points nowhere"));
  EXPECT_THAT(told(model + "optics = {fold_mirrors = 2, mirror_normals = [[1, 0, 0]]}\n"),
              HasSubstr("has fold_mirrors = 2 but 1 mirror_normals"));
  EXPECT_THAT(told(model + "optics = {beam = [1, 0]}\n"), HasSubstr("must be three numbers"));
}

TEST(Checks, refuse_a_link_that_names_no_role_of_the_model) {
  const std::string model =
      "[[model]]\nmodel = \"M\"\nkind = \"K\"\nlink = [{from = \"supply:CN2\", to = \"lamp "
      "drivr:CN1\"}]\n"
      "[[model.position]]\nposition = \"supply\"\n[[model.position]]\nposition = \"lamp driver\"\n";
  EXPECT_EQ(
      told(model),
      "tern.toml, line 6: the link names the role \"lamp drivr\", which no position of model \"M\" "
      "fills; did you mean \"lamp driver\"?");
  EXPECT_THAT(
      told("[[model]]\nmodel = \"M\"\nkind = \"K\"\nlink = [{from = \"supply\", to = \"a:b\"}]\n"),
      HasSubstr("write it as \"role:port\""));
}

TEST(Checks, refuse_a_hazard_on_a_role_the_kind_does_not_have) {
  EXPECT_EQ(told("[[set_kind]]\nset_kind = \"K\"\nrole = [{role = \"supply\"}]\nhazard = [{hazard "
                 "= \"mains\", caution = "
                 "\"Pull the plug.\", roles = [\"suply\"]}]\n"),
            "tern.toml, line 3: hazard \"mains\" names \"suply\", which is not a role of set kind "
            "\"K\"; did you mean "
            "\"supply\"?");
  EXPECT_THAT(told("[[set_kind]]\nset_kind = \"K\"\njudged = false\n"),
              HasSubstr("add not_judged"));
}

TEST(Checks, refuse_a_cure_that_would_match_every_finding) {
  EXPECT_THAT(told("[[adaptation]]\nadaptation = \"a\"\ncures = [{}]\n"),
              HasSubstr("would match every finding"));
  EXPECT_THAT(told("[[adaptation]]\nadaptation = \"a\"\nneeds = [\"b\"]\nexcludes = [\"b\"]\n"),
              HasSubstr("both needs and excludes \"b\""));
}

TEST(Checks, refuse_a_day_that_is_not_in_the_calendar) {
  const auto note = [](const std::string& date) {
    return "[[swap_note]]\nswap_note = \"a\"\ninto = \"M\"\nresult = \"works\"\ndate = \"" + date +
           "\"\n";
  };
  EXPECT_EQ(told(note("2024-02-29")), "");
  EXPECT_EQ(told(note("2026-02-29")),
            "tern.toml, line 3: date = \"2026-02-29\" of swap note \"a\" is not a day; write it as "
            "2026-05-31.");
  EXPECT_THAT(told(note("31.5.2026")), HasSubstr("is not a day"));
  EXPECT_THAT(told(note("2026-13-01")), HasSubstr("is not a day"));
}

TEST(Checks, want_the_result_of_a_swap_written_down) {
  EXPECT_EQ(told("[[swap_note]]\nswap_note = \"a\"\ninto = \"M\"\n"),
            "tern.toml, line 3: a swap note (swap_note = \"a\") has no \"result\"; add it.");
}

TEST(Checks, refuse_an_observer_that_cannot_answer) {
  const auto observer = [](const std::string& lines) {
    return told("[[setting]]\nsetting = \"index\"\n[[setting.observer]]\nobserver = \"bar\"\n" +
                lines);
  };
  EXPECT_EQ(observer("response = \"window\"\nwords = [{word = \"red\", means = \"good\"}]\n"),
            "tern.toml, line 5: observer \"bar\" of setting \"index\" cannot answer; add words for "
            "below, good and above.");
  EXPECT_THAT(observer("response = \"peak\"\nunit = \"lux\"\n"),
              HasSubstr("add best = \"highest\" or \"lowest\"."));
  EXPECT_THAT(observer("response = \"line\"\n"), HasSubstr("cannot answer; add unit."));
  EXPECT_THAT(observer("response = \"threshold\"\nunit = \"lux\"\n"),
              HasSubstr("cannot answer; add wanted."));
  EXPECT_THAT(observer("response = \"threshold\"\nwords = [{word = \"a\", means = \"good\"}]\n"),
              HasSubstr("add words for good and for one side, or a unit."));
  EXPECT_THAT(observer("response = \"peak\"\nunit = \"lux\"\nbest = \"lowest\"\nwords = [{word = "
                       "\"a\", means = \"good\"}]\n"),
              HasSubstr("has both words and a unit"));
  EXPECT_THAT(observer("response = \"peak\"\nwords = [{word = \"a\", means = \"good\"}, {word = "
                       "\"a\", means = \"off\"}]\n"),
              HasSubstr("word \"a\" is already written"));
  EXPECT_EQ(observer("response = \"line\"\nunit = \"degrees\"\n"), "");
}

}  // namespace
}  // namespace benchgraft::catalogue
