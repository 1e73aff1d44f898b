#include "sheets/judgement_page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/surprises.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

using fit::Verdict;

std::string model_words(const fit::Judgement& judged) {
  const std::string what = judged.model.empty() ? judged.kind : judged.model;
  if (!judged.variant.empty()) return fmt::format("{}, variant {}", what, judged.variant);
  if (judged.variants_left.size() > 1)
    return fmt::format("{}, variant not known ({})", what, listed(judged.variants_left));
  return what;
}

Page headed(const fit::Judgement& judged, const About& about, const std::string& what) {
  Page page;
  page.title = fmt::format("{}: {}", what, about.name);
  page.verdict = verdict_line(judged);
  page.figures.push_back(fmt::format("Host: {}.", model_words(judged)));
  return page;
}

// What the chance rests on, so that nobody takes an assumption for experience.
std::string evidence_words(const fit::Judgement& judged) {
  const auto& rests = judged.evidence;
  std::string text =
      fmt::format("It starts from {} in {} ({})", fmt::format("{:g}", rests.prior_worked),
                  fmt::format("{:g}", rests.prior_worked + rests.prior_failed),
                  rests.prior_source.empty() ? "no source given" : rests.prior_source);
  if (rests.worked + rests.failed > 0)
    text += fmt::format("; swap notes add {} that worked and {} that failed",
                        fmt::format("{:g}", rests.worked), fmt::format("{:g}", rests.failed));
  else
    text += "; no swap note speaks of it yet";
  if (!rests.blamed_on_part.empty())
    text += fmt::format("; {} failed with a part not known good and is held against the part",
                        listed(rests.blamed_on_part));
  return text + ".";
}

void add_chance(const fit::Judgement& judged, Page& page) {
  const bool not_judged =
      std::any_of(judged.reasons.begin(), judged.reasons.end(),
                  [](const fit::Reason& reason) { return reason.rule == "not judged"; });
  if (judged.verdict <= Verdict::unknown && !not_judged)
    page.figures.push_back(fmt::format("Chance that it works at first power: {}. {}",
                                       percent_text(judged.chance), evidence_words(judged)));
}

std::string material_words(const fit::Judgement& judged, const About& about) {
  if (judged.material.minor == 0) return "Material: none to buy.";
  return fmt::format("Material: {}.", money_text(judged.material, about.currency));
}

void add_figures(const fit::Judgement& judged, const About& about, Page& page) {
  if (judged.verdict > Verdict::unknown) return;
  page.figures.push_back(
      fmt::format("Work on what is changed: {}. Waiting: {}. {}", minutes_text(judged.work_minutes),
                  minutes_text(judged.waiting_minutes), material_words(judged, about)));
  add_chance(judged, page);
}

void add_surprises(const fit::Judgement& judged, Page& page) {
  Block top{"Before you open it", 1, "", {}, {}, false, false};
  auto all = surprises(judged);
  if (all.empty()) top.lead = "Nothing on record stands in the way.";
  page.blocks.push_back(std::move(top));
  for (auto& block : all) page.blocks.push_back(std::move(block));
}

Line plain(const std::string& text, const std::string& code = "") {
  Line line;
  line.text = sentence(text);
  line.code = code;
  return line;
}

bool is_bought(const std::string& from) { return from == "bought" || from == "buy"; }

bool comes_along(const fit::Judgement& judged, const std::string& what) {
  return std::any_of(judged.companions.begin(), judged.companions.end(), [&](const auto& along) {
    return along.what == what && along.sort == "for work";
  });
}

// Tools and material that the work itself asks for.
Block on_the_bench(const fit::Judgement& judged, const About& about) {
  Block block{"Have on the bench", 1, "", {}, {}, false, false};
  for (const auto& along : judged.companions) {
    Line line =
        plain(along.sort == "for work" ? fmt::format("{}, {}", along.what, along.why) : along.what,
              along.code);
    line.tick = true;
    if (along.price && is_bought(along.from)) line.aside = money_text(*along.price, about.currency);
    block.lines.push_back(std::move(line));
  }
  for (const auto& chosen : judged.adaptations)
    for (const auto& brought : chosen.brings) {
      if (comes_along(judged, brought)) continue;
      Line line = plain(fmt::format("{}, for: {}", brought, chosen.name),
                        chosen.codes.empty() ? "" : chosen.codes.front());
      line.tick = true;
      block.lines.push_back(std::move(line));
    }
  for (const auto& repin : judged.repins)
    if (!repin.conductor.empty()) {
      Line line =
          plain(fmt::format("Wire and contacts for the plug {} of {}", repin.port, repin.part),
                repin.code);
      line.tick = true;
      block.lines.push_back(std::move(line));
    }
  Line meter = plain("Meter, insulated probes, power resistor for discharging, bags and labels");
  meter.tick = true;
  block.lines.push_back(std::move(meter));
  return block;
}

std::string source_words(const std::string& from) {
  if (is_bought(from)) return "to be bought";
  if (from == "shelf") return "shelf";
  return from.empty() ? "not said" : from;
}

std::string comes_out(const fit::Judgement& judged, const fit::Seat& seat) {
  if (!seat.was.empty()) return seat.was;
  return judged.model.empty() || judged.variant.empty() ? "not on record" : "nothing";
}

Block from_where(const fit::Judgement& judged) {
  Block block{"Take what from where", 1, "", {}, {}, false, false};
  block.table.head = {"Place", "Goes in", "From", "Comes out"};
  for (const auto& seat : judged.seats)
    if (seat.changed)
      block.table.rows.push_back({capitalised(seat.position),
                                  seat.type.empty() ? "type not known" : seat.type,
                                  source_words(seat.from), comes_out(judged, seat)});
  block.lead = block.table.rows.empty() ? "Nothing is exchanged." : "Everything else stays.";
  return block;
}

std::string end_words(const std::string& port, const std::string& type, const std::string& role) {
  return fmt::format("{} of {}", port.empty() ? "plug" : port, type.empty() ? "the " + role : type);
}

Block connections(const fit::Judgement& judged) {
  Block block{"Connections to make", 1, "", {}, {}, false, false};
  for (const auto& link : judged.links) {
    if (!link.touched) continue;
    Line line =
        plain(fmt::format("{} to {}{}{}", end_words(link.from_port, link.from_type, link.from_role),
                          end_words(link.to_port, link.to_type, link.to_role),
                          link.lead.empty() ? "" : fmt::format(", with the lead {}", link.lead),
                          link.carries.empty() ? "" : fmt::format(" ({})", link.carries)));
    const auto verdict = steps::after_work(judged, link);
    line.mark = verdict_mark(verdict);
    line.tone = tone_of(verdict);
    block.lines.push_back(std::move(line));
  }
  return block;
}

Block settings_to_redo(const fit::Judgement& judged) {
  Block block{"Settings to redo", 1, "", {}, {}, false, false};
  for (const auto& todo : judged.settings) {
    if (todo.action == "travels") continue;
    Line line =
        plain(capitalised(todo.name) +
                  (todo.predicted.empty() ? "" : fmt::format(": start with {}", todo.predicted)),
              todo.code);
    line.aside = minutes_text(todo.work_minutes);
    line.tick = true;
    if (!todo.found_by.empty()) line.under.push_back(plain(todo.found_by));
    if (!todo.why.empty()) line.under.push_back(plain(todo.why));
    line.under.push_back(plain("Found: ______________"));
    block.lines.push_back(std::move(line));
  }
  return block;
}

void add_work(const fit::Judgement& judged, const steps::WorkOrder* work, Page& page) {
  Block top{"Work in order", 1, "", {}, {}, false, false};
  if (judged.verdict > Verdict::unknown || work == nullptr) {
    top.lead = "No order of work is given: this rebuild must not be built as it stands.";
    page.blocks.push_back(std::move(top));
    return;
  }
  page.blocks.push_back(std::move(top));
  for (auto& block : work_blocks(*work)) page.blocks.push_back(std::move(block));
}

void add_work_figures(const fit::Judgement& judged, const steps::WorkOrder* work,
                      const About& about, Page& page) {
  if (work == nullptr || judged.verdict > Verdict::unknown) return add_figures(judged, about, page);
  page.figures.push_back(fmt::format(
      "Work: {} in all, {} of it on what is changed; the rest opens, clears the way, proves and "
      "closes. Waiting: {}. {}",
      minutes_text(work->work_minutes), minutes_text(judged.work_minutes),
      minutes_text(work->waiting_minutes), material_words(judged, about)));
  if (work->without_minutes > 0)
    page.figures.push_back(fmt::format("{} no minutes on record and come on top.",
                                       work->without_minutes == 1
                                           ? "One step has"
                                           : fmt::format("{} steps have", work->without_minutes)));
  add_chance(judged, page);
}

void add_if_filled(Block block, Page& page) {
  if (!block.lines.empty() || !block.table.rows.empty() || !block.lead.empty())
    page.blocks.push_back(std::move(block));
}

}  // namespace

Page judgement_page(const fit::Judgement& judged, const About& about) {
  Page page = headed(judged, about, "Judged");
  add_figures(judged, about, page);
  add_surprises(judged, page);
  page.foot = safety_foot();
  return page;
}

Page build_page(const fit::Judgement& judged, const steps::WorkOrder* work, const About& about) {
  Page page = headed(judged, about, "Build sheet");
  add_work_figures(judged, work, about, page);
  add_surprises(judged, page);
  if (judged.verdict <= Verdict::unknown) {
    add_if_filled(on_the_bench(judged, about), page);
    add_if_filled(from_where(judged), page);
    add_if_filled(connections(judged), page);
  }
  add_work(judged, work, page);
  if (judged.verdict <= Verdict::unknown) add_if_filled(settings_to_redo(judged), page);
  page.foot = safety_foot();
  return page;
}

}  // namespace benchgraft::sheets
