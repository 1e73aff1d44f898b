#include "fit/link_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/findings.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;

std::string type_of(const Place& place) {
  return place.type ? place.type->reference() : place.position;
}

// "contact 1 is 5 V supply on LD-2 and enable signal on TE-3"
std::string met(const Joint& joint, const ContactFinding& f) {
  if (!f.a || !f.b) return contact_called(f.a ? *f.a : *f.b);
  if (f.a->number == kNoWireNumber || f.b->number == kNoWireNumber) {
    const bool on_a = f.b->number == kNoWireNumber;
    const Contact& live = on_a ? *f.a : *f.b;
    return fmt::format(
        "{} of {} meets nothing: {}", contact_called(live), type_of(on_a ? *joint.a : *joint.b),
        joint.through_lead()
            ? fmt::format("the lead {} has no wire there", joint.lead->type->reference())
            : "the pin is taken out");
  }
  if (f.a->number == f.b->number)
    return fmt::format("contact {} is {} on {} and {} on {}", f.a->number, contact_carries(*f.a),
                       type_of(*joint.a), contact_carries(*f.b), type_of(*joint.b));
  return fmt::format("contact {} of {} ({}) meets contact {} of {} ({})", f.a->number,
                     type_of(*joint.a), contact_carries(*f.a), f.b->number, type_of(*joint.b),
                     contact_carries(*f.b));
}

// "contact 1 is on the mains side of MD-1 (5 V supply) and on the isolated side of QF-1 (5 V
// supply)"
std::string sides_met(const Joint& joint, const ContactFinding& f) {
  const auto side = [](const Contact& c) -> std::string {
    const auto domain = domain_of(c);
    if (domain == catalogue::Domain::primary) return "the mains side";
    if (domain == catalogue::Domain::secondary) return "the isolated side";
    return fmt::format("the {} side", catalogue::word_of(catalogue::kDomainWords, domain));
  };
  return fmt::format("contact {} is {} on {} of {} and {} on {} of {}", f.a->number,
                     contact_carries(*f.a), side(*f.a), type_of(*joint.a), contact_carries(*f.b),
                     side(*f.b), type_of(*joint.b));
}

// At most four contacts are spelled out; why and the sheet list the rest as facts.
std::string met_all(const Joint& joint, const std::vector<ContactFinding>& found) {
  constexpr std::size_t kSpelledOut = 4;
  std::vector<std::string> words;
  for (const auto& f : found) {
    if (words.size() == kSpelledOut - 1 && found.size() > kSpelledOut) {
      words.push_back(fmt::format("{} more contacts likewise", found.size() - words.size()));
      break;
    }
    words.push_back(met(joint, f));
  }
  return listed(words);
}

// The finding with the supplier first.
struct Flow {
  const Contact* gives;
  const Contact* takes;
  std::string giver, taker;
};
Flow flow(const Joint& joint, const ContactFinding& f) {
  const bool a_takes = (f.a && f.a->direction == catalogue::Direction::in) ||
                       (f.b && f.b->direction == catalogue::Direction::out);
  if (a_takes) return {f.b, f.a, type_of(*joint.b), type_of(*joint.a)};
  return {f.a, f.b, type_of(*joint.a), type_of(*joint.b)};
}

std::string volts_sentence(const Joint& joint, const ContactFinding& f, const char* outcome) {
  const Flow way = flow(joint, f);
  if (!way.gives || !way.takes || !way.gives->volts || !way.takes->volts) return met(joint, f);
  return fmt::format("{} gives {} on {}, {} allows {}: {}", way.giver,
                     volts_text(*way.gives->volts), contact_called(*way.gives), way.taker,
                     volts_text(*way.takes->volts), outcome);
}

std::string level_sentence(const Joint& joint, const ContactFinding& f) {
  const auto level = [](const Contact& c) {
    std::string text =
        c.logic_volts ? number(*c.logic_volts) + " V logic" : "logic level not recorded";
    if (c.active != catalogue::Level::unknown)
      text += fmt::format(", active {}", catalogue::word_of(catalogue::kLevelWords, c.active));
    if (c.idle != catalogue::Level::unknown)
      text += fmt::format(", idle {}", catalogue::word_of(catalogue::kLevelWords, c.idle));
    return text;
  };
  const bool out_is_a = f.a->direction == catalogue::Direction::out;
  const Contact& out = out_is_a ? *f.a : *f.b;
  const Contact& in = out_is_a ? *f.b : *f.a;
  const bool differ = out.logic_volts && in.logic_volts;
  const bool inverted = out.active != in.active && out.active != catalogue::Level::unknown &&
                        in.active != catalogue::Level::unknown;
  const char* outcome = "idle it asks for the wrong thing";
  if (differ && *out.logic_volts > *in.logic_volts * (1 + kRailTolerance))
    outcome = "too high, the input burns";
  else if (inverted)
    outcome = f.verdict == Verdict::destroys
                  ? "on and off are exchanged, it lights when it must not"
                  : "on and off are exchanged, it never starts or never stops";
  else if (differ && *out.logic_volts < *in.logic_volts * (1 - kRailTolerance))
    outcome = "too low, it may not be seen";
  return fmt::format("{} of {} ({}) does not go with {} of {} ({}): {}", contact_called(*f.a),
                     type_of(*joint.a), level(*f.a), contact_called(*f.b), type_of(*joint.b),
                     level(*f.b), outcome);
}

std::string protocol_sentence(const Joint& joint, const ContactFinding& f) {
  return fmt::format("{} of {} speaks {}, {} of {} speaks {}: they do not understand each other",
                     contact_called(*f.a), type_of(*joint.a), f.a->protocol, contact_called(*f.b),
                     type_of(*joint.b), f.b->protocol);
}

std::string rate_sentence(const Joint& joint, const ContactFinding& f) {
  const bool b_gives = f.b->direction == catalogue::Direction::out;
  const Contact &gives = b_gives ? *f.b : *f.a, &takes = b_gives ? *f.a : *f.b;
  return fmt::format("{} of {} pulses at {}, {} of {} takes {}: {}", contact_called(gives),
                     type_of(b_gives ? *joint.b : *joint.a), range_text(*gives.hertz, "Hz"),
                     contact_called(takes), type_of(b_gives ? *joint.a : *joint.b),
                     range_text(*takes.hertz, "Hz"),
                     f.verdict == Verdict::unknown ? "it may or may not follow, measure it"
                                                   : "it flickers or is not followed");
}

std::string reply_sentence(const Joint& joint, const ContactFinding& f) {
  const bool a_waits = f.a && f.a->waits_s;
  const Contact& waits = a_waits ? *f.a : *f.b;
  return fmt::format(
      "{} waits for \"{}\" on contact {} and {} never gives it: it starts clean and stops after {} "
      "s",
      type_of(a_waits ? *joint.a : *joint.b), waits.signal, waits.number,
      type_of(a_waits ? *joint.b : *joint.a), number(waits.waits_s.value_or(0)));
}

std::string amps_sentence(const Joint& joint, const ContactFinding& f) {
  const Flow way = flow(joint, f);
  if (!way.gives || !way.takes) return met(joint, f);
  return fmt::format("{} draws {} A on {}, {} gives at most {} A", way.taker,
                     number(way.takes->amps.value_or(0)), contact_called(*way.takes), way.giver,
                     number(way.gives->amps.value_or(0)));
}

std::string each(const Joint& joint, const std::vector<ContactFinding>& found,
                 std::string (*sentence)(const Joint&, const ContactFinding&)) {
  constexpr std::size_t kSpelledOut = 3;
  std::string text;
  std::size_t told = 0;
  for (const auto& f : found) {
    if (told == kSpelledOut) {
      text += fmt::format("; {} more likewise", found.size() - told);
      break;
    }
    if (!text.empty()) text += "; ";
    text += sentence(joint, f);
    ++told;
  }
  return capitalised(text) + ".";
}

}  // namespace

// size: a straight-line table, one sentence a rule
std::string says(ContactRule rule, const Joint& joint, const std::vector<ContactFinding>& found) {
  const std::string ends =
      joint.through_lead()
          ? fmt::format("{}, through the lead {}, to {}",
                        capitalised(port_called(*joint.a, *joint.port_a)),
                        joint.lead->type->reference(), port_called(*joint.b, *joint.port_b))
          : fmt::format("{} on {}", capitalised(port_called(*joint.a, *joint.port_a)),
                        port_called(*joint.b, *joint.port_b));
  switch (rule) {
    case ContactRule::domain_clash:
      return fmt::format(
          "{}: {}. This joins circuits that must stay isolated: danger to life, boards destroyed. "
          "Never join them.",
          ends, sides_met(joint, found.front()));
    case ContactRule::class_clash: {
      const bool burns = std::any_of(found.begin(), found.end(), [](const ContactFinding& f) {
        return f.verdict == Verdict::destroys;
      });
      return fmt::format("{}: {}.{}", ends, met_all(joint, found),
                         burns ? " It plugs in and it destroys." : "");
    }
    case ContactRule::over_voltage:
      return each(joint, found, [](const Joint& j, const ContactFinding& f) {
        return volts_sentence(j, f, "too high, it burns");
      });
    case ContactRule::rail_low:
      return each(joint, found, [](const Joint& j, const ContactFinding& f) {
        return volts_sentence(j, f,
                              f.verdict == Verdict::destroys
                                  ? "too low, it draws more current instead and burns"
                                  : "too low, it does not run right");
      });
    case ContactRule::rail_overload:
      return each(joint, found, amps_sentence);
    case ContactRule::level_clash:
      return each(joint, found, level_sentence);
    case ContactRule::drive_clash:
      return fmt::format(
          "{}: {}. One side pulls the line where the other expects it to be driven, or nobody "
          "pulls "
          "it up.",
          ends, met_all(joint, found));
    case ContactRule::direction_clash:
      return fmt::format("{}: {}. Both sides drive the same line against each other.", ends,
                         met_all(joint, found));
    case ContactRule::rate_clash:
      return each(joint, found, rate_sentence);
    case ContactRule::protocol_clash:
      return each(joint, found, protocol_sentence);
    case ContactRule::missing_reply:
      return each(joint, found, reply_sentence);
    case ContactRule::crossed_signals:
      return fmt::format("{}: {}. Right plug, other order.", ends, met_all(joint, found));
    case ContactRule::nothing_feeds_it:
      return fmt::format("{}: {}. Nothing feeds it.", ends, met_all(joint, found));
    case ContactRule::earth_lost:
      return fmt::format(
          "{}: {}. The earth path ends here; it must be whole and measured before power.", ends,
          met_all(joint, found));
    case ContactRule::safety_loop_open:
      return fmt::format(
          "{}: {}. The door or thermal loop ends here; it must be whole before power.", ends,
          met_all(joint, found));
    case ContactRule::string_current:
      return fmt::format("{}: {}. {}", ends, met_all(joint, found),
                         std::any_of(found.begin(), found.end(),
                                     [](const auto& f) { return f.verdict == Verdict::destroys; })
                             ? "The driver gives more current than the strings allow: they burn."
                             : "The driver gives less current than the strings want: dark.");
    case ContactRule::string_volts:
      return fmt::format("{}: {}. The driver does not reach the volts of the strings.", ends,
                         met_all(joint, found));
    case ContactRule::sensor_curve:
      return fmt::format(
          "{}: {}. Another sensor curve or switch sense: it trips at once or never protects.", ends,
          met_all(joint, found));
    case ContactRule::empty_contact:
      return fmt::format("{}: {}. A contact left empty on one revision can be live on the next.",
                         ends, met_all(joint, found));
    case ContactRule::no_return:
      return fmt::format("{}: {}. There is no way back for the current.", ends,
                         met_all(joint, found));
    case ContactRule::not_recorded:
      return fmt::format("{}: not all contacts are recorded.", ends);
  }
  return {};
}

std::string lead_length_words(const Joint& joint) {
  constexpr double kSlack = 1.3, kSpareEnds = 100, kStep = 50;  // assumed
  const auto& old_a = joint.port_a->lead_mm;
  const auto& old_b = joint.port_b->lead_mm;
  if (old_a || old_b)
    return fmt::format("{} mm, as long as the lead it stands in for",
                       number(std::max(old_a.value_or(0), old_b.value_or(0))));
  const auto* place_a = joint.a->place;
  const auto* place_b = joint.b->place;
  if (!place_a || !place_b || !place_a->at_mm || !place_b->at_mm)
    return "lay a string the way it will run, clear of fans and hot parts, and add 100 mm (no "
           "length on record; 100 mm assumed)";
  const double straight = distance(*place_a->at_mm, *place_b->at_mm);
  return fmt::format(
      "{} mm: {} mm straight from place to place, a third of slack and 100 mm for the ends "
      "(assumed)",
      number(std::ceil((straight * kSlack + kSpareEnds) / kStep) * kStep),
      number(std::round(straight)));
}

std::string danger_words(ContactRule rule) {
  switch (rule) {
    case ContactRule::domain_clash:
      return "the hot side meets the safe side";
    case ContactRule::class_clash:
      return "a supply or another circuit meets a line it burns";
    case ContactRule::over_voltage:
      return "the voltage is too high and burns it";
    case ContactRule::rail_low:
      return "the voltage is too low";
    case ContactRule::rail_overload:
      return "more is drawn than it gives";
    case ContactRule::level_clash:
      return "the levels do not agree";
    case ContactRule::direction_clash:
      return "two outputs drive against each other";
    case ContactRule::string_current:
      return "the strings get too much current";
    case ContactRule::earth_lost:
      return "the earth path is open";
    case ContactRule::safety_loop_open:
      return "the door or thermal loop is open";
    case ContactRule::missing_reply:
      return "a reply is missing and the set stops";
    default:
      return "it does not work";
  }
}

std::string missing_words(std::uint32_t missing) {
  constexpr std::array<std::pair<std::uint32_t, const char*>, 14> kWords{
      {{kMissingContact, "what it is"},
       {kMissingDomain, "hot or cold side"},
       {kMissingClass, "class"},
       {kMissingVolts, "volts"},
       {kMissingAmps, "amps"},
       {kMissingDirection, "direction"},
       {kMissingSignal, "signal"},
       {kMissingActive, "active level"},
       {kMissingDrive, "drive"},
       {kMissingLogic, "logic volts"},
       {kMissingProtocol, "protocol"},
       {kMissingHertz, "pulse rate"},
       {kMissingPullUp, "pull-up"},
       {kMissingIdle, "idle level"}}};
  std::vector<std::string> words;
  for (const auto& [bit, word] : kWords)
    if (missing & bit) words.emplace_back(word);
  return listed(words);
}

}  // namespace benchgraft::fit
