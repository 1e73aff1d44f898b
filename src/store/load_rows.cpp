#include <map>

#include <fmt/format.h>

#include "shop/thing_text.hpp"
#include "shop/words.hpp"
#include "store/tables.hpp"

namespace benchgraft::store {

namespace {

using shop::Shop;

/// Reads the tables one after the other; what this program cannot read is told once.
class Loading {
 public:
  explicit Loading(Connection& connection) : connection_(connection) {}

  Result<Shop> run() {
    terms();
    sets();
    parts();
    notes();
    rebuilds();
    wishes();
    if (unreadable_) return *unreadable_;
    return std::move(shop_);
  }

 private:
  void cannot_read(const std::string& what) {
    if (!unreadable_)
      unreadable_ =
          Error{ErrorKind::storage,
                fmt::format("{} of the shop file cannot be read; something else than this program "
                            "changed the file: go back to your newest good copy.",
                            what)};
  }

  template <class Tag>
  Id<Tag> id(const std::string& text) {
    auto read = id_from_text<Tag>(text);
    if (read) return read.value();
    cannot_read(fmt::format("the id \"{}\"", text));
    return {};
  }

  template <class E, class List>
  E word(const List& list, const std::string& text, E when_empty) {
    if (text.empty()) return when_empty;
    if (const auto value = shop::value_of(list, text)) return *value;
    cannot_read(fmt::format("the word \"{}\"", text));
    return when_empty;
  }

  void terms() {
    connection_.each(
        "SELECT currency, per_hour_minor, hours, mains_volts, mains_hz, touch_profile, "
        "chance_untested, "
        "chance_good, chance_suspect, note FROM terms",
        {}, [&](const Row& row) {
          shop::Terms& terms = shop_.terms;
          terms.currency = row.text(0);
          terms.per_hour.minor = row.whole(1);
          terms.hours = row.number(2);
          terms.mains_volts = *row.number(3);
          terms.mains_hz = *row.number(4);
          terms.touch_profile = row.text(5);
          terms.chance_untested = *row.number(6);
          terms.chance_good = *row.number(7);
          terms.chance_suspect = *row.number(8);
          terms.note = row.text(9);
        });
  }

  // One word of a list of the thing that stands at `at[seq]`.
  template <class Add>
  void list(const std::string& sql, const std::map<std::int64_t, std::size_t>& at, Add add) {
    connection_.each(sql, {}, [&](const Row& row) {
      if (const auto found = at.find(row.whole(0)); found != at.end()) add(found->second, row);
    });
  }

  void sets() {
    std::map<std::int64_t, std::size_t> at;
    connection_.each(
        "SELECT seq, id, code, owner, consent, kind, model, variant, looks, complaint, place, "
        "taken_in, "
        "fate, note FROM sets ORDER BY seq",
        {}, [&](const Row& row) {
          at.emplace(row.whole(0), shop_.sets.size());
          shop::Set& set = shop_.sets.emplace_back();
          set.id = id<shop::SetTag>(row.text(1));
          set.code = row.text(2);
          set.owner = row.text(3);
          set.consent = word(shop::kConsentWords, row.text(4), shop::Consent::unknown);
          set.kind = row.text(5);
          set.model = row.text(6);
          set.variant = row.text(7);
          set.looks = word(shop::kLooksWords, row.text(8), shop::Looks::unknown);
          set.complaint = row.text(9);
          set.place = row.text(10);
          set.taken_in = row.text(11);
          set.fate = word(shop::kFateWords, row.text(12), shop::Fate::here);
          set.note = row.text(13);
        });
    list("SELECT set_seq, model FROM set_candidates ORDER BY set_seq, n", at,
         [&](std::size_t i, const Row& row) { shop_.sets[i].candidates.push_back(row.text(1)); });
    list("SELECT set_seq, position FROM set_missing ORDER BY set_seq, n", at,
         [&](std::size_t i, const Row& row) { shop_.sets[i].missing.push_back(row.text(1)); });
  }

  void parts() {
    std::map<std::int64_t, std::size_t> at;
    connection_.each(
        "SELECT seq, id, code, type, state, tested_how, tested_in, tested_on, run_hours, chance, "
        "in_set, "
        "position, place, \"from\", note FROM parts ORDER BY seq",
        {}, [&](const Row& row) {
          at.emplace(row.whole(0), shop_.parts.size());
          shop::Part& part = shop_.parts.emplace_back();
          part.id = id<shop::PartTag>(row.text(1));
          part.code = row.text(2);
          part.type = row.text(3);
          part.state = word(shop::kStateWords, row.text(4), shop::State::untested);
          part.tested_how = row.text(5);
          part.tested_in = row.text(6);
          part.tested_on = row.text(7);
          part.run_hours = row.number(8);
          part.chance = row.number(9);
          if (!row.is_null(10)) part.in_set = id<shop::SetTag>(row.text(10));
          part.position = row.text(11);
          part.place = row.text(12);
          part.from = row.text(13);
          part.note = row.text(14);
        });
    list("SELECT part_seq, type FROM part_candidates ORDER BY part_seq, n", at,
         [&](std::size_t i, const Row& row) { shop_.parts[i].candidates.push_back(row.text(1)); });
    list("SELECT part_seq, role FROM part_roles ORDER BY part_seq, n", at,
         [&](std::size_t i, const Row& row) { shop_.parts[i].roles.push_back(row.text(1)); });
    list(
        "SELECT part_seq, change, port, \"from\", \"to\", piece, piece_kind, setting, contact, "
        "now, lead_mm, note FROM part_changes ORDER BY part_seq, n",
        at, [&](std::size_t i, const Row& row) {
          shop_.parts[i].changes.push_back(change(shop_.parts[i], row));
        });
  }

  catalogue::Change change(const shop::Part& part, const Row& row) {
    catalogue::Change change;
    change.sort = word(catalogue::kChangeSortWords, row.text(1), catalogue::ChangeSort::plug_cut);
    change.port = row.text(2);
    change.from = row.text(3);
    change.to = row.text(4);
    change.piece = row.text(5);
    change.piece_kind = row.text(6);
    change.setting = row.text(7);
    if (!row.is_null(8)) {
      auto contact = shop::contact_from_text(row.text(8), called(part));
      if (contact)
        change.contact = std::move(contact.value());
      else
        cannot_read("a contact of " + called(part));
    }
    if (!row.is_null(9)) {
      auto now = shop::trait_from_text(row.text(9), called(part));
      if (now)
        change.now = std::move(now.value());
      else
        cannot_read("a trait of " + called(part));
    }
    change.lead_mm = row.number(10);
    change.note = row.text(11);
    change.where = {called(part), 0};
    return change;
  }

  void notes() {
    connection_.each("SELECT name, text FROM notes ORDER BY seq", {}, [&](const Row& row) {
      const std::string called = fmt::format("swap note \"{}\"", row.text(0));
      auto note = shop::thing_from_text<catalogue::SwapNote>(row.text(1), called);
      if (!note) return cannot_read(called);
      note.value().where = {called, 0};
      shop_.notes.push_back(std::move(note.value()));
    });
  }

  void rebuilds() {
    std::map<std::int64_t, std::size_t> at;
    connection_.each(
        "SELECT seq, id, name, host, state, started, finished, work_minutes, note FROM rebuilds "
        "ORDER BY seq",
        {}, [&](const Row& row) {
          at.emplace(row.whole(0), shop_.rebuilds.size());
          shop_.rebuilds.push_back({id<shop::RecordTag>(row.text(1)),
                                    row.text(2),
                                    id<shop::SetTag>(row.text(3)),
                                    {},
                                    row.text(4),
                                    row.text(5),
                                    row.text(6),
                                    row.number(7),
                                    row.text(8)});
        });
    list("SELECT rebuild_seq, position, part FROM rebuild_parts ORDER BY rebuild_seq, n", at,
         [&](std::size_t i, const Row& row) {
           shop_.rebuilds[i].parts.push_back({row.text(1), id<shop::PartTag>(row.text(2))});
         });
  }

  void wishes() {
    connection_.each(
        "SELECT id, wish, \"set\", part, note FROM wishes ORDER BY seq", {}, [&](const Row& row) {
          shop_.wishes.push_back({id<shop::RecordTag>(row.text(0)),
                                  word(shop::kWishWords, row.text(1), shop::WishSort::build_this),
                                  row.text(2), row.text(3), row.text(4)});
        });
  }

  Connection& connection_;
  Shop shop_;
  std::optional<Error> unreadable_;
};

}  // namespace

Result<Shop> load_shop(Connection& connection) { return Loading(connection).run(); }

std::vector<shop::FamilyText> load_families(Connection& connection) {
  std::vector<shop::FamilyText> families;
  connection.each("SELECT name, text FROM family ORDER BY seq", {}, [&](const Row& row) {
    families.push_back({row.text(0), row.text(1)});
  });
  return families;
}

}  // namespace benchgraft::store
