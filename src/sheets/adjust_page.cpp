#include "sheets/adjust_page.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace benchgraft::sheets {
namespace {

std::string with_unit(double value, const Adjusted& adjusted) {
  const std::string unit = adjusted.unit.empty() ? "" : " " + adjusted.unit;
  return align::number_text(value) + unit;
}

std::string from_to(const catalogue::Range& range, const Adjusted& adjusted) {
  if (range.low == range.high) return with_unit(range.low, adjusted);
  return fmt::format("{} to {}", align::number_text(range.low), with_unit(range.high, adjusted));
}

/// Ends of an interval on the digits that matter: about a hundredth of its width.
catalogue::Range rounded(const catalogue::Range& range) {
  const double width = std::max(range.high - range.low, 1e-9);
  const double digit = std::pow(10, std::floor(std::log10(width)) - 1);
  return {std::round(range.low / digit) * digit, std::round(range.high / digit) * digit};
}

bool cannot_be_cured(const Adjusted& adjusted) {
  return adjusted.wheel != nullptr && adjusted.wheel->last.fault == align::WheelFault::exchanged;
}

Line verdict_of(const Adjusted& adjusted) {
  const auto& found = adjusted.estimate;
  Line line;
  if (cannot_be_cured(adjusted)) {
    line.text = "No value of this setting puts it right.";
    line.tone = Tone::bad;
    return line;
  }
  if (adjusted.readings.empty()) {
    line.text = fmt::format("Look at the value {} first.", with_unit(found.next, adjusted));
    line.tone = Tone::ask;
  } else if (found.settled) {
    line.text = fmt::format("Set {} to {}.", adjusted.setting, with_unit(found.value, adjusted));
    line.tone = Tone::good;
  } else {
    line.text = fmt::format("Look at the value {} next.", with_unit(found.next, adjusted));
    line.tone = Tone::ask;
  }
  return line;
}

Block result_block(const Adjusted& adjusted) {
  const auto& found = adjusted.estimate;
  Block block;
  block.heading = "What the readings say";
  const auto row = [&](const std::string& what, const std::string& text) {
    block.table.rows.push_back({what, text});
  };
  row("Best so far", with_unit(found.value, adjusted));
  row("Chance that it is good enough", percent_text(found.chance));
  row("The best value lies, nine times in ten, from", from_to(rounded(found.interval), adjusted));
  row("All good enough, nine times in ten, from",
      found.band ? from_to(*found.band, adjusted) : "not known yet");
  if (!found.settled) row("Reading that would tell most", with_unit(found.next, adjusted));
  return block;
}

Block wheel_block(const align::WheelEstimate& wheel) {
  Block block;
  block.heading = "The colour wheel, by the last look";
  Line line;
  line.text = wheel.last.sentence;
  line.tone = wheel.last.fault == align::WheelFault::exchanged ? Tone::bad : Tone::plain;
  block.lines.push_back(line);
  const auto& slope = wheel.degrees_per_unit;
  if (slope.error < 0.5 * std::abs(slope.per_unit))
    block.lines.push_back(
        {"",
         fmt::format("One step turns by about {:.2g} degrees, {:.2g} microseconds.", slope.per_unit,
                     wheel.microseconds_per_unit),
         "",
         Tone::quiet,
         "",
         {},
         false,
         {}});
  return block;
}

Block readings_block(const Adjusted& adjusted) {
  Block block;
  block.heading = "Readings";
  for (const auto& reading : adjusted.readings)
    block.lines.push_back({"", reading, "", Tone::plain, "", {}, false, {}});
  return block;
}

}  // namespace

Page adjust_page(const Adjusted& adjusted) {
  Page page;
  page.title = "Adjust " + adjusted.setting;
  page.verdict = verdict_of(adjusted);
  if (!adjusted.before.empty()) {
    Block before;
    before.heading = "Found before";
    before.lines.push_back({"", adjusted.before, "", Tone::plain, "", {}, false, {}});
    page.blocks.push_back(before);
  }
  if (!adjusted.looked_at.empty()) {
    Block look;
    look.heading = "How to look";
    look.lines.push_back({"", adjusted.looked_at, "", Tone::plain, "", {}, false, {}});
    page.blocks.push_back(look);
  }
  if (!adjusted.readings.empty()) {
    if (adjusted.wheel != nullptr) page.blocks.push_back(wheel_block(*adjusted.wheel));
    if (!cannot_be_cured(adjusted)) page.blocks.push_back(result_block(adjusted));
    page.blocks.push_back(readings_block(adjusted));
  }
  for (const auto& remark : adjusted.estimate.remarks) {
    if (page.blocks.back().heading != "To look at again")
      page.blocks.push_back({"To look at again", 1, "", {}, {}, false, false});
    page.blocks.back().lines.push_back({"", remark, "", Tone::ask, "", {}, false, {}});
  }
  return page;
}

}  // namespace benchgraft::sheets
