// The pages that describe the formats: every example reads, every key and word is named.
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>

#include "catalogue/effective.hpp"
#include "catalogue/read_keys.hpp"
#include "catalogue/text.hpp"

namespace benchgraft::catalogue {
namespace {

using ::testing::HasSubstr;

std::string page(const std::string& name) {
  std::ifstream file(std::string(BENCHGRAFT_SOURCE_DIR) + "/docs/formats/" + name);
  std::stringstream text;
  text << file.rdbuf();
  EXPECT_FALSE(text.str().empty()) << name;
  return text.str();
}

std::vector<std::string> examples(const std::string& name) {
  const std::string text = page(name), fence = "```toml\n";
  std::vector<std::string> found;
  for (std::size_t at = text.find(fence); at != std::string::npos; at = text.find(fence, at)) {
    at += fence.size();
    found.push_back(text.substr(at, text.find("```", at) - at));
  }
  return found;
}

std::vector<Family> kinds() {
  const auto loaded = load_catalogue({std::string(BENCHGRAFT_SOURCE_DIR) + "/data/kinds"});
  EXPECT_TRUE(loaded.ok()) << loaded.error().message;
  return loaded ? loaded.value().families() : std::vector<Family>{};
}

TEST(CataloguePage, shows_only_examples_that_load_beside_the_kinds) {
  std::vector<Family> families = kinds();
  const std::size_t without = families.size();
  for (const auto& text : examples("catalogue.md")) {
    const auto read = read_family(text, "catalogue.md");
    ASSERT_TRUE(read.ok()) << read.error().message << "\n" << text;
    EXPECT_EQ(read_family(write_family(read.value()), "again").value(), read.value());
    families.push_back(read.value());
  }
  EXPECT_EQ(families.size(), without + 4);
  const auto made = Catalogue::from_families(std::move(families));
  EXPECT_TRUE(made.ok()) << made.error().message;
}

TEST(RebuildPage, shows_only_examples_that_read) {
  int rebuilds = 0, notes = 0, changes = 0;
  for (const auto& text : examples("rebuild.md")) {
    std::string fault;
    if (text.find("rebuild = ") != std::string::npos) {
      ++rebuilds;
      if (const auto read = read_rebuild(text, "rebuild.md"); !read) fault = read.error().message;
    } else if (text.find("[[swap_note]]") != std::string::npos) {
      ++notes;
      if (const auto read = read_swap_note(text, "rebuild.md"); !read) fault = read.error().message;
    } else {
      ++changes;
      if (const auto read = read_changes(text, "rebuild.md"); !read) fault = read.error().message;
    }
    EXPECT_EQ(fault, "") << text;
  }
  EXPECT_EQ(rebuilds, 2);
  EXPECT_EQ(notes, 1);
  EXPECT_EQ(changes, 1);
}

TEST(RebuildPage, shows_changes_its_own_part_type_can_take) {
  const auto family = read_family(examples("catalogue.md")[1], "catalogue.md");
  ASSERT_TRUE(family.ok()) << family.error().message;
  const auto texts = examples("rebuild.md");
  const auto changes = read_changes(texts[2], "rebuild.md");
  ASSERT_TRUE(changes.ok()) << changes.error().message;
  const auto changed = effective_type(family.value().part_types[0], changes.value());
  EXPECT_TRUE(changed.ok()) << changed.error().message;
}

template <class T>
void expect_keys_named(const std::string& text) {
  for (const auto& key : key_names<T>()) {
    const bool named = text.find("`" + key + "`") != std::string::npos ||
                       text.find("{" + key) != std::string::npos ||
                       text.find(", " + key) != std::string::npos ||
                       text.find("[[" + key + "]]") != std::string::npos;
    EXPECT_TRUE(named) << Thing<T>::kCalled << " has the key " << key << ", which no page names";
  }
}

TEST(Pages, name_every_key_there_is) {
  const std::string text = page("catalogue.md") + page("rebuild.md");
  expect_keys_named<PartType>(text);
  expect_keys_named<Port>(text);
  expect_keys_named<Connector>(text);
  expect_keys_named<Contact>(text);
  expect_keys_named<Piece>(text);
  expect_keys_named<Rail>(text);
  expect_keys_named<Wire>(text);
  expect_keys_named<Fellow>(text);
  expect_keys_named<Counter>(text);
  expect_keys_named<EngineOptics>(text);
  expect_keys_named<Model>(text);
  expect_keys_named<ModelOptics>(text);
  expect_keys_named<Position>(text);
  expect_keys_named<Variant>(text);
  expect_keys_named<Price>(text);
  expect_keys_named<StatedLink>(text);
  expect_keys_named<Adaptation>(text);
  expect_keys_named<Cure>(text);
  expect_keys_named<Setting>(text);
  expect_keys_named<Observer>(text);
  expect_keys_named<JudgedWord>(text);
  expect_keys_named<SwapNote>(text);
  expect_keys_named<PlugNote>(text);
  expect_keys_named<DidNote>(text);
  expect_keys_named<FoundNote>(text);
  expect_keys_named<SetKind>(text);
  expect_keys_named<KindRole>(text);
  expect_keys_named<KindLink>(text);
  expect_keys_named<Hazard>(text);
  expect_keys_named<Surprise>(text);
  expect_keys_named<PartKind>(text);
  expect_keys_named<TouchLimit>(text);
  expect_keys_named<Change>(text);
  expect_keys_named<Family>(text);
  expect_keys_named<ProposedPart>(page("rebuild.md"));
  expect_keys_named<SwapNote>(page("rebuild.md"));
}

template <class List>
void expect_words_named(const std::string& text, const List& list) {
  for (const auto& [value, word] : list)
    EXPECT_THAT(text, HasSubstr("`" + std::string(word) + "`"));
}

TEST(CataloguePage, names_every_word_of_every_list) {
  const std::string text = page("catalogue.md");
  expect_words_named(text, kDomainWords);
  expect_words_named(text, kNetClassWords);
  expect_words_named(text, kDirectionWords);
  expect_words_named(text, kDriveWords);
  expect_words_named(text, kLevelWords);
  expect_words_named(text, kHalfWords);
  expect_words_named(text, kOneAtWords);
  expect_words_named(text, kRibbonSideWords);
  expect_words_named(text, kMountWords);
  expect_words_named(text, kProtectionWords);
  expect_words_named(text, kFlipWords);
  expect_words_named(text, kSourceWords);
  expect_words_named(text, kLooksWords);
  expect_words_named(text, kPlugResultWords);
  expect_words_named(text, kSeenWords);
  expect_words_named(text, kSwapResultWords);
  expect_words_named(text, kChangeSortWords);
}

}  // namespace
}  // namespace benchgraft::catalogue
