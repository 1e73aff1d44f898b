// size: one result, its pieces read together
// What fit answers: a verdict with reasons, and everything that follows from the rebuild.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.hpp"
#include "catalogue/part_type.hpp"
#include "fit/reason.hpp"

namespace benchgraft::fit {

/// Something that must come along.
struct Companion {
  std::string what;  ///< piece, lead, lamp, fan ...
  std::string sort;  ///< "piece", "part", "for work" (asked for by an adaptation)
  std::string from;  ///< "the old light engine", "buy", a model or set code
  std::string why;
  std::string role;
  std::vector<std::string> types;  ///< part types that would do
  std::optional<Money> price;
  std::string code;  ///< of the reason
};

/// Moving a contact from one place to another in a plug.
struct Move {
  std::string signal;
  std::string from, to;  ///< contact numbers
};

/// Fewest moves that make a plug right, or wires of a crossover lead. Never for excluded circuits.
struct Repin {
  std::string part, port;  ///< the plug that is worked on
  std::string into, socket;
  bool crossover = false;  ///< a lead to be made, because the plugs do not mate
  std::vector<Move> moves;
  std::string conductor;  ///< size and colour in words, with their standard
  std::string length;     ///< of a lead to be made, in words; "" where none is made
  std::string code;
};

struct ChosenAdaptation {
  std::string name;
  std::vector<std::string> steps;
  std::vector<std::string> codes;  ///< reasons it makes good
  std::vector<std::string> brings;
  double work_minutes = 0;
  double waiting_minutes = 0;
  Money material;
  std::string risk;
  std::vector<std::string> after;  ///< other chosen work that has to be done before it
  Where where;
};

struct SettingToDo {
  std::string name;
  std::string action;     ///< "redo", "travels", "check", "set"
  std::string predicted;  ///< value, "" when none is known
  std::string why;
  std::string found_by;
  double work_minutes = 0;
  double waiting_minutes = 0;
  std::string code;
};

struct CounterToKnow {
  std::string name, speaks_of;
  std::string shows;  ///< what the menu will show, "" unknown
  std::string truth;  ///< true hours, "" unknown
  std::string says;
  std::string code;
};

/// Which way round the picture comes up and which flips put it right.
struct Orientation {
  bool known = false;
  catalogue::Flip comes_up;  ///< as seen at first power
  catalogue::Flip toggle;    ///< flips to change
  std::string says;
  std::string code;
};

/// Something to settle, with the set open, before power.
struct Question {
  std::string text;
  std::string about;  ///< part type or model
  std::string key;    ///< the catalogue key that would answer it
  std::string role;
  double work_minutes = 2;
  bool safety = false;
  std::string code;
};

/// "May": usual for the kind, folded into one line.
struct LookHere {
  std::string role;
  std::string look;
  double work_minutes = 0;
  double chance = 0;
  std::string source;
};

/// A hazard met by the work and the caution that goes on the step.
struct Caution {
  std::string hazard;
  std::string text;
  std::vector<std::string> roles;  ///< steps it belongs to; empty = opening the set
  double waiting_minutes = 0;
};

/// Which part sits where, for the steps and the sheet.
struct Seat {
  std::string position;
  std::vector<std::string> roles;
  std::string type;  ///< reference, "" unknown
  std::string from;  ///< "host" = stays in
  bool changed = false;
  bool lead = false;
  std::string was;  ///< reference of the part that came out, "" none
  std::vector<std::string> after;
};

/// Two ports joined.
struct Link {
  std::string from_role, from_type, from_port;
  std::string to_role, to_type, to_port;
  std::string lead;  ///< part type of the lead between, "" = directly
  std::string carries;
  Verdict verdict = Verdict::fits;
  bool touched = false;  ///< at least one end is not the factory's pairing
};

/// A variant of the host, or a candidate of a part, that it cannot be.
struct StruckOut {
  std::string candidate;
  std::string because;
  std::string place;        ///< of the part; "" = a variant of the host
  std::vector<Fact> facts;  ///< what was seen, and the record it disagrees with
};

/// The one look that would settle most of what host and parts may be.
struct LookFirst {
  std::string says;  ///< "Look at the lamp: it tells early from late."
  std::string place;
  std::size_t cases = 0;     ///< host and parts may be now
  double expected_left = 0;  ///< on average, after the look
  double minutes = 0;        ///< to reach it
};

/// What the chance rests on: the mean of Beta(prior_worked + worked, prior_failed + failed).
struct Evidence {
  double prior_worked = 0, prior_failed = 0;
  double worked = 0, failed = 0;            ///< by swap notes; one about the family counts half
  std::vector<std::string> notes;           ///< counted
  std::vector<std::string> blamed_on_part;  ///< failed with parts not known good: not counted
  std::string prior_source;
};

struct Judgement {
  Verdict verdict = Verdict::unknown;
  std::string model, variant, kind;
  std::vector<StruckOut> struck_out;       ///< candidate variants ruled out
  std::vector<std::string> variants_left;  ///< still possible
  std::optional<LookFirst> look_first;     ///< nothing when all is known
  std::vector<Reason> reasons;             ///< worst first
  std::vector<Companion> companions;
  std::vector<ChosenAdaptation> adaptations;
  std::vector<Repin> repins;
  std::vector<std::string> lost, gained;
  std::vector<SettingToDo> settings;
  std::vector<CounterToKnow> counters;
  Orientation orientation;
  std::vector<Question> questions;
  std::vector<LookHere> look_here;
  std::vector<Caution> cautions;
  std::vector<Seat> seats;
  std::vector<Link> links;
  double work_minutes = 0;
  double waiting_minutes = 0;
  Money material;
  Evidence evidence;
  double chance = 0;  ///< that the rebuild works at first power, from the evidence
};

}  // namespace benchgraft::fit
