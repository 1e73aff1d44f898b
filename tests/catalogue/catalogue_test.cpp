#include "catalogue/catalogue.hpp"

#include <gmock/gmock.h>

#include "catalogue/references.hpp"
#include "faults_told.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::string type(const std::string& name, const std::string& more = "") {
  return "[[part_type]]\npart_type = \"" + name +
         "\"\nkind = \"lamp driver\"\nroles = [\"lamp driver\"]\n" + more;
}

const char* const kKinds =
    "[[set_kind]]\nset_kind = \"rear projection\"\nrole = [{role = \"lamp\"}, {role = \"lamp "
    "driver\"}]\n"
    "hazard = [{hazard = \"mains\", caution = \"Pull the plug.\"}]\n"
    "[[part_kind]]\npart_kind = \"lamp driver\"\n";

/// What from_families says about the bodies, each a family of its own ("a", "b", ...).
std::string told_of(const std::vector<std::string>& bodies) {
  std::vector<Family> families;
  std::string name = "a";
  for (const auto& body : bodies) {
    families.push_back(family_of(body, name));
    ++name[0];
  }
  const auto made = Catalogue::from_families(std::move(families));
  return made ? "" : made.error().message;
}

Catalogue catalogue_of(const std::string& body) {
  auto made = Catalogue::from_families({family_of(body)});
  EXPECT_TRUE(made.ok()) << made.error().message;
  return std::move(made).value();
}

TEST(Catalogue, finds_a_part_type_by_number_or_by_number_and_revision) {
  const Catalogue known =
      catalogue_of(type("LD-20", "revision = \"A\"\n") + type("LD-20", "revision = \"B\"\n") +
                   type("LD-21", "revision = \"A\"\n"));
  ASSERT_NE(known.part_type("LD-20/B"), nullptr);
  EXPECT_EQ(known.part_type("LD-20/B")->revision, "B");
  EXPECT_EQ(known.part_type("LD-20"), nullptr) << "two revisions: not certain which";
  ASSERT_NE(known.part_type("LD-21"), nullptr);
  EXPECT_EQ(known.part_type("LD-21")->reference(), "LD-21/A");
  EXPECT_EQ(known.part_type("LD-22"), nullptr);
  EXPECT_EQ(known.revisions("LD-20").size(), 2U);
  EXPECT_TRUE(known.revisions("LD-20/A").empty());
  EXPECT_EQ(known.family_of("LD-21"), "tern");
  EXPECT_EQ(known.family_of("LD-99"), "");
}

TEST(Catalogue, takes_the_number_alone_for_the_type_without_a_revision) {
  const Catalogue known = catalogue_of(type("LD-20") + type("LD-20", "revision = \"B\"\n"));
  ASSERT_NE(known.part_type("LD-20"), nullptr);
  EXPECT_EQ(known.part_type("LD-20")->revision, "");
}

TEST(Catalogue, knows_which_models_were_built_with_a_part_type) {
  const auto model = [](const std::string& name, const std::string& reference) {
    return "[[model]]\nmodel = \"" + name +
           "\"\nkind = \"K\"\n[[model.position]]\nposition = \"driver\"\n"
           "[[model.variant]]\nvariant = \"v\"\nparts = {driver = \"" +
           reference + "\"}\n";
  };
  const Catalogue known =
      catalogue_of(type("LD-20", "revision = \"A\"\n") + type("LD-21") + model("M1", "LD-20") +
                   model("M2", "LD-20/A") + model("M3", "LD-21"));
  EXPECT_THAT(known.built_with("LD-20/A"), ElementsAre(known.model("M1"), known.model("M2")));
  EXPECT_TRUE(known.built_with("LD-99").empty());
  EXPECT_EQ(known.family_of("M3"), "tern");
}

TEST(Catalogue, names_both_places_of_a_thing_recorded_twice) {
  EXPECT_EQ(told_of({type("LD-20"), "\n" + type("LD-20")}),
            "b.toml, line 4: part type \"LD-20\" is already recorded in a.toml, line 3; keep one.");
  EXPECT_THAT(told_of({"[[setting]]\nsetting = \"s\"\n", "[[setting]]\nsetting = \"s\"\n"}),
              HasSubstr("b.toml, line 3: setting \"s\" is already recorded in a.toml, line 3"));
  const auto same = Catalogue::from_families({family_of("", "x"), family_of("", "x")});
  ASSERT_FALSE(same.ok());
  EXPECT_EQ(same.error().kind, ErrorKind::conflict);
  EXPECT_THAT(same.error().message, HasSubstr("family \"x\" is already recorded"));
}

TEST(Catalogue, takes_a_role_that_is_nearly_a_usual_one_for_a_slip_of_the_pen) {
  const auto with_role = [](const std::string& role) {
    return std::string(kKinds) +
           "[[part_type]]\npart_type = \"LD-20\"\nkind = \"lamp driver\"\nroles = [\"" + role +
           "\"]\n";
  };
  EXPECT_THAT(told_of({with_role("lamp drivr")}),
              HasSubstr("which no kind knows; did you mean \"lamp driver\"?"));
  EXPECT_EQ(told_of({with_role("lamp driver")}), "");
  EXPECT_EQ(told_of({with_role("lamp driver 2")}), "");
  EXPECT_EQ(told_of({with_role("smoke detector")}), "");
}

TEST(Catalogue, names_the_nearest_for_a_part_type_nobody_recorded) {
  const std::string model =
      "[[model]]\nmodel = \"M\"\nkind = \"rear projection\"\n[[model.position]]\nposition = "
      "\"driver\"\n"
      "[[model.variant]]\nvariant = \"late\"\nparts = {driver = \"LD-2O\"}\n";
  EXPECT_EQ(told_of({type("LD-20") + model}),
            "a.toml, line 12: variant \"late\" of model \"M\" names part type \"LD-2O\", which is "
            "not recorded; did you "
            "mean \"LD-20\"?");
  EXPECT_THAT(told_of({model}), HasSubstr("record it with at least its kind and roles."));
}

TEST(Catalogue, names_all_revisions_when_a_reference_could_be_any) {
  EXPECT_EQ(told_of({type("LD-20", "revision = \"A\"\n") + type("LD-20", "revision = \"B\"\n") +
                     type("EN-1", "fellow = [{role = \"lamp driver\", types = [\"LD-20\"]}]\n")}),
            "a.toml, line 17: a fellow of part type \"EN-1\" names \"LD-20\", which has the "
            "revisions LD-20/A and "
            "LD-20/B; write one of them.");
}

TEST(Catalogue, refuses_kinds_that_no_kinds_file_has_once_there_is_one) {
  EXPECT_EQ(told_of({type("LD-20"), kKinds}), "");
  EXPECT_EQ(
      told_of(
          {"[[part_type]]\npart_type = \"X\"\nkind = \"lamp drive\"\nroles = [\"lamp driver\"]\n",
           kKinds}),
      "a.toml, line 3: part type \"X\" names the part kind \"lamp drive\", which is not recorded; "
      "did you mean "
      "\"lamp driver\"?");
  EXPECT_EQ(told_of({"[[model]]\nmodel = \"M\"\nkind = \"rear projektion\"\n", kKinds}),
            "a.toml, line 3: model \"M\" names the set kind \"rear projektion\", which is not "
            "recorded; did you mean "
            "\"rear projection\"?");
  EXPECT_EQ(told_of({"[[model]]\nmodel = \"M\"\nkind = \"rear projektion\"\n"}), "")
      << "no kinds loaded";
}

TEST(Catalogue, refuses_roles_and_hazards_nobody_has_once_kinds_are_there) {
  EXPECT_THAT(
      told_of({type("LD-20", "hazards = [\"mians\"]\n"), kKinds}),
      HasSubstr("names the hazard \"mians\", which is not recorded; did you mean \"mains\"?"));
  EXPECT_THAT(
      told_of({type("LD-20", "[[part_type.port]]\nport = \"CN1\"\nto = \"lanp\"\n"), kKinds}),
      HasSubstr("port \"CN1\" of part type \"LD-20\" names the role \"lanp\", which is not "
                "recorded; did you mean "
                "\"lamp\"?"));
  EXPECT_THAT(
      told_of({type("LD-20", "fellow = [{role = \"lampe\", types = [\"LD-20\"], safety = true}]\n"),
               kKinds}),
      HasSubstr("a fellow of part type \"LD-20\" names the role \"lampe\""));
  EXPECT_THAT(
      told_of(
          {type("LD-20", "counter = [{counter = \"lamp hours\", speaks_of = \"lmp\"}]\n"), kKinds}),
      HasSubstr("a counter of part type \"LD-20\" names the role \"lmp\""));
  EXPECT_THAT(told_of({"[[setting]]\nsetting = \"s\"\ndepends_on = [\"lmp\"]\n", kKinds}),
              HasSubstr("setting \"s\" names the role \"lmp\""));
  EXPECT_THAT(
      told_of({"[[adaptation]]\nadaptation = \"a\"\ncures = [{rule = \"r\", role = \"lmp\"}]\n",
               kKinds}),
      HasSubstr("a cure of adaptation \"a\" names the role \"lmp\""));
}

TEST(Catalogue, refuses_an_order_after_something_that_is_nowhere) {
  const auto model = [](const std::string& after) {
    return type("LD-20", "carries = [{piece = \"earth braid\"}]\n") +
           "[[model]]\nmodel = \"M\"\nkind = \"rear projection\"\n[[model.position]]\nposition = "
           "\"lamp\"\n"
           "[[model.position]]\nposition = \"driver\"\nroles = [\"lamp driver\"]\nafter = [\"" +
           after + "\"]\n";
  };
  EXPECT_EQ(told_of({model("lamp")}), "");
  EXPECT_EQ(told_of({model("earth braid")}), "");
  EXPECT_THAT(told_of({model("earth brade")}),
              HasSubstr("\"after\" of position \"driver\" names the position or piece \"earth "
                        "brade\", which is not "
                        "recorded; did you mean \"earth braid\"?"));
  EXPECT_THAT(
      told_of({type("LD-20", "carries = [{piece = \"sheet\", after = [\"lmap\"]}]\n"), kKinds}),
      HasSubstr("\"after\" of piece \"sheet\" of part type \"LD-20\" names the role \"lmap\""));
}

TEST(Catalogue, refuses_settings_and_adaptations_that_name_others_nobody_recorded) {
  EXPECT_THAT(told_of({"[[setting]]\nsetting = \"wheel index\"\nafter = "
                       "[\"flipp\"]\n[[setting]]\nsetting = \"flip\"\n"}),
              HasSubstr("setting \"wheel index\" names the setting \"flipp\", which is not "
                        "recorded; did you mean "
                        "\"flip\"?"));
  EXPECT_THAT(told_of({"[[adaptation]]\nadaptation = \"a\"\nneeds = [\"re-pin\"]\n"}),
              HasSubstr("adaptation \"a\" names the adaptation \"re-pin\", which is not recorded"));
  EXPECT_THAT(told_of({"[[adaptation]]\nadaptation = \"a\"\nexcludes = [\"re-pin\"]\n"}),
              HasSubstr("adaptation \"a\" names the adaptation \"re-pin\", which is not recorded"));
  EXPECT_THAT(told_of({"[[adaptation]]\nadaptation = \"a\"\ncures = [{type = \"LD-1\"}]\n"}),
              HasSubstr("a cure of adaptation \"a\" names part type \"LD-1\""));
}

TEST(Catalogue, finds_a_circle_that_runs_through_two_files) {
  EXPECT_THAT(told_of({"[[setting]]\nsetting = \"a\"\nafter = [\"b\"]\n",
                       "[[setting]]\nsetting = \"b\"\nafter = [\"a\"]\n"}),
              HasSubstr("settings wait for each other in a circle: \"a\" waits for \"b\", which "
                        "waits for \"a\""));
}

TEST(Catalogue, lets_a_swap_note_speak_of_boards_nobody_entered_yet) {
  EXPECT_EQ(told_of({"[[swap_note]]\nswap_note = \"n\"\ninto = \"M-900/late\"\nmoved = "
                     "[\"LD-77\"]\nresult = \"works\"\n",
                     kKinds}),
            "");
}

}  // namespace
}  // namespace benchgraft::catalogue
