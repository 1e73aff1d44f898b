// size: straight-line word lists, one enum each
// The closed word lists of the catalogue: one enum each, with the word written in text files.
// `unknown` stands for "not recorded" and is never written.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "base/source.hpp"

namespace benchgraft::catalogue {

/// Which insulation island a contact belongs to. `primary` is everything joined to the mains:
/// mains, the rectified bus and its "hot" ground. `secondary` is behind the isolation barrier.
enum class Domain { unknown, primary, secondary, lamp, panel_high, floating, earth };

/// What runs on a contact. `unused` means the maker left it empty on this revision.
enum class NetClass {
  unknown,
  unused,
  mains,
  bus,
  ignition,
  earth,
  interlock,
  thermal,
  ground,
  supply,
  signal,
  pair,
  motor,
  light,
  sound,
};

/// Seen from the part that carries the contact. For power: `out` supplies, `in` draws.
enum class Direction { unknown, in, out, both, passive };

/// How an output drives, or what an input wants to be driven by.
enum class Drive { unknown, driven, open_collector, dry_contact };

enum class Level { unknown, low, high };

/// `plug` sits on a wire or ribbon, `socket` on a board or frame.
enum class Half { unknown, plug, socket };

/// Where contact 1 is when the mating face is towards you and the key or latch is up.
enum class OneAt { unknown, left, right };

/// Side of a flat ribbon on which the bare contacts are, or which side the socket touches.
enum class RibbonSide { unknown, top, bottom };

enum class Mount { unknown, upright, inverted };

enum class Protection { unknown, class_1, class_2 };

/// Edge of a board a connector sits at, seen from the side of the parts with the board as mounted.
enum class Edge { unknown, left, right, top, bottom };

/// What was done to one physical part after it was made.
enum class ChangeSort {
  plug_cut,
  contact_moved,
  contact_removed,
  contact_added,
  piece_gone,
  piece_added,
  lead_replaced,
  memory_changed,
  trait_changed,
};

enum class PlugResult { straight_in, did_not, would_but_must_not };
enum class Seen { not_written, right, mirrored, upside_down, turned };
enum class SwapResult { works, works_with, failed, damaged };

/// One word list: pairs of value and text, in the order of the enum.
template <class E, std::size_t N>
using WordList = std::array<std::pair<E, std::string_view>, N>;

inline constexpr WordList<Domain, 6> kDomainWords{{{Domain::primary, "primary"},
                                                   {Domain::secondary, "secondary"},
                                                   {Domain::lamp, "lamp"},
                                                   {Domain::panel_high, "panel high voltage"},
                                                   {Domain::floating, "floating"},
                                                   {Domain::earth, "earth"}}};
inline constexpr WordList<NetClass, 14> kNetClassWords{{{NetClass::unused, "unused"},
                                                        {NetClass::mains, "mains"},
                                                        {NetClass::bus, "bus"},
                                                        {NetClass::ignition, "ignition"},
                                                        {NetClass::earth, "earth"},
                                                        {NetClass::interlock, "interlock"},
                                                        {NetClass::thermal, "thermal"},
                                                        {NetClass::ground, "ground"},
                                                        {NetClass::supply, "supply"},
                                                        {NetClass::signal, "signal"},
                                                        {NetClass::pair, "pair"},
                                                        {NetClass::motor, "motor"},
                                                        {NetClass::light, "light"},
                                                        {NetClass::sound, "sound"}}};
inline constexpr WordList<Direction, 4> kDirectionWords{{{Direction::in, "in"},
                                                         {Direction::out, "out"},
                                                         {Direction::both, "both"},
                                                         {Direction::passive, "passive"}}};
inline constexpr WordList<Drive, 3> kDriveWords{{{Drive::driven, "driven"},
                                                 {Drive::open_collector, "open collector"},
                                                 {Drive::dry_contact, "dry contact"}}};
inline constexpr WordList<Level, 2> kLevelWords{{{Level::low, "low"}, {Level::high, "high"}}};
inline constexpr WordList<Half, 2> kHalfWords{{{Half::plug, "plug"}, {Half::socket, "socket"}}};
inline constexpr WordList<OneAt, 2> kOneAtWords{{{OneAt::left, "left"}, {OneAt::right, "right"}}};
inline constexpr WordList<RibbonSide, 2> kRibbonSideWords{
    {{RibbonSide::top, "top"}, {RibbonSide::bottom, "bottom"}}};
inline constexpr WordList<Edge, 4> kEdgeWords{
    {{Edge::left, "left"}, {Edge::right, "right"}, {Edge::top, "top"}, {Edge::bottom, "bottom"}}};
inline constexpr WordList<Mount, 2> kMountWords{
    {{Mount::upright, "upright"}, {Mount::inverted, "inverted"}}};
inline constexpr WordList<Protection, 2> kProtectionWords{
    {{Protection::class_1, "I"}, {Protection::class_2, "II"}}};
inline constexpr WordList<ChangeSort, 9> kChangeSortWords{
    {{ChangeSort::plug_cut, "plug cut"},
     {ChangeSort::contact_moved, "contact moved"},
     {ChangeSort::contact_removed, "contact removed"},
     {ChangeSort::contact_added, "contact added"},
     {ChangeSort::piece_gone, "piece gone"},
     {ChangeSort::piece_added, "piece added"},
     {ChangeSort::lead_replaced, "lead replaced"},
     {ChangeSort::memory_changed, "memory changed"},
     {ChangeSort::trait_changed, "now has"}}};
inline constexpr WordList<PlugResult, 3> kPlugResultWords{
    {{PlugResult::straight_in, "straight in"},
     {PlugResult::did_not, "did not"},
     {PlugResult::would_but_must_not, "would plug but must not"}}};
inline constexpr WordList<Seen, 4> kSeenWords{{{Seen::right, "right way round"},
                                               {Seen::mirrored, "mirrored"},
                                               {Seen::upside_down, "upside down"},
                                               {Seen::turned, "turned"}}};
inline constexpr WordList<SwapResult, 4> kSwapResultWords{{{SwapResult::works, "works"},
                                                           {SwapResult::works_with, "works with"},
                                                           {SwapResult::failed, "failed"},
                                                           {SwapResult::damaged, "damaged"}}};
inline constexpr WordList<Source, 5> kSourceWords{{{Source::measured, "measured"},
                                                   {Source::verified, "verified"},
                                                   {Source::derived, "derived"},
                                                   {Source::usual, "usual"},
                                                   {Source::assumed, "assumed"}}};

/// The word of `value` in `list`; "" for a value that is not in it (unknown).
template <class E, std::size_t N>
constexpr std::string_view word_of(const WordList<E, N>& list, E value) {
  for (const auto& [known, word] : list)
    if (known == value) return word;
  return {};
}

/// The value whose word is `word`, or nothing.
template <class E, std::size_t N>
constexpr std::optional<E> value_of(const WordList<E, N>& list, std::string_view word) {
  for (const auto& [known, text] : list)
    if (text == word) return known;
  return std::nullopt;
}

}  // namespace benchgraft::catalogue
