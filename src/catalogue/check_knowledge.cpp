#include "catalogue/check_family.hpp"

namespace benchgraft::catalogue {

namespace {

bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

bool is_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U, 8U, 9U})
    if (text[i] < '0' || text[i] > '9') return false;
  const int year = std::stoi(text.substr(0, 4)), month = std::stoi(text.substr(5, 2));
  const int day = std::stoi(text.substr(8, 2));
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12) return false;
  return day >= 1 && day <= kDays[month - 1] + (month == 2 && is_leap(year) ? 1 : 0);
}

// What a change has to name, so that nothing is left to guess at the bench.
void check_change(Faults& faults, const Change& change) {
  const std::string sort(word_of(kChangeSortWords, change.sort));
  const auto must = [&](bool said, const char* key) {
    if (!said)
      faults.add(change.where, fmt::format("change = \"{}\" has no \"{}\"; add it.", sort, key));
  };
  switch (change.sort) {
    case ChangeSort::plug_cut:
      return must(!change.port.empty(), "port");
    case ChangeSort::contact_moved:
      must(!change.port.empty(), "port");
      must(!change.from.empty(), "from");
      must(!change.to.empty(), "to");
      check_contact_number(faults, change.where, change.to);
      if (change.from == change.to)
        faults.add(
            change.where,
            fmt::format("contact {} is moved to where it is; correct from or to.", change.to));
      return;
    case ChangeSort::contact_removed:
      must(!change.port.empty(), "port");
      return must(!change.from.empty(), "from");
    case ChangeSort::contact_added:
      must(!change.port.empty(), "port");
      must(change.contact.has_value(), "contact");
      if (change.contact) check_contact_number(faults, change.where, change.contact->number);
      return;
    case ChangeSort::piece_gone:
    case ChangeSort::piece_added:
      return must(!change.piece.empty(), "piece");
    case ChangeSort::trait_changed:
      return must(change.now.has_value(), "now");
    case ChangeSort::lead_replaced:
    case ChangeSort::memory_changed:
      return;
  }
}

void check_parts(Faults& faults, const RebuildText& rebuild,
                 const std::vector<ProposedPart>& parts) {
  refuse_doubles(faults, "a part for the place", parts, rebuild.where,
                 [](const ProposedPart& part) { return part.place; });
  for (const auto& part : parts) {
    if (!part.type.empty() && !part.candidates.empty())
      faults.add(part.where,
                 fmt::format(
                     "the part for \"{}\" has both a type and candidates; keep the type when it is "
                     "known, else the candidates.",
                     part.place));
    if (part.empty && !part.type.empty())
      faults.add(part.where, fmt::format("\"{}\" is said to be empty and to hold {}; keep one.",
                                         part.place, part.type));
    check_changes(faults, part.changes);
  }
}

// Of what is put in, only what stands on the part itself says something.
void check_put_in(Faults& faults, const std::vector<ProposedPart>& parts) {
  for (const auto& part : parts)
    if (part.empty || !part.signs.empty())
      faults.add(part.where,
                 fmt::format("the part for \"{}\" has \"{}\", which is said of a host in "
                             "[[seen]]; move it there.",
                             part.place, part.empty ? "empty" : "signs"));
}

}  // namespace

void check_adaptation(Faults& faults, const Adaptation& adaptation) {
  for (const auto& cure : adaptation.cures)
    if (cure == Cure{})
      faults.add(adaptation.where,
                 fmt::format("a cure of adaptation \"{}\" is empty and would match every finding; "
                             "name its rule.",
                             adaptation.name));
  for (const auto& other : adaptation.excludes)
    if (contains(adaptation.needs, other))
      faults.add(adaptation.where,
                 fmt::format("adaptation \"{}\" both needs and excludes \"{}\"; keep one.",
                             adaptation.name, other));
}

void check_swap_note(Faults& faults, const SwapNote& note) {
  if (!note.date.empty() && !is_date(note.date))
    faults.add(
        note.where,
        fmt::format("date = \"{}\" of swap note \"{}\" is not a day; write it as 2026-05-31.",
                    note.date, note.name));
}

void check_changes(Faults& faults, const std::vector<Change>& changes) {
  for (const auto& change : changes) check_change(faults, change);
}

Result<void> check(const SwapNote& note) {
  Faults faults;
  check_swap_note(faults, note);
  return faults.result();
}

Result<void> check(const std::vector<Change>& changes) {
  Faults faults;
  check_changes(faults, changes);
  return faults.result();
}

Result<void> check(const RebuildText& rebuild) {
  Faults faults;
  if (rebuild.model.empty() && rebuild.kind.empty())
    faults.add(
        rebuild.where,
        fmt::format("rebuild \"{}\" names no host; add model = \"...\", or kind = \"...\" when the "
                    "model is not recorded.",
                    rebuild.name));
  check_parts(faults, rebuild, rebuild.parts);
  check_put_in(faults, rebuild.parts);
  check_parts(faults, rebuild, rebuild.seen);
  return faults.result();
}

}  // namespace benchgraft::catalogue
