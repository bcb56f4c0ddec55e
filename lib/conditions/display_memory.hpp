// Display memory: since when the minimum and maximum of a check are known to stand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// Of a check whose minimum or maximum is out of the range of its place, or of a product that was ever in it, and that
/// comes after a check without minimum and maximum: that time before that one is not counted, and since when the
/// display may have kept them. The world does not know the check.
std::optional<Remark> display_memory(World& world, const Check& check);

/// The minimum and maximum of a place's first check. Since when they stand is not known, and no figure counts them.
struct FirstDisplay {
    std::int64_t at = 0;
    EntryNumber entry = 0;
    Scale scale = Scale::C;
    std::int32_t lowest = 0, highest = 0;  ///< corrected, thousandths of a degree
    Temperature shown_lowest, shown_highest;
};
/// None where the first check, or the instant of the question, has none. Reads no other check.
const FirstDisplay* first_display(World& world, const std::string& place);

/// words::display_showed, where it is out of the range, or at or below the freeze limit.
std::optional<Remark> shown_out(const World& world, const FirstDisplay& display, const std::string& place,
                                const Range& range, const std::optional<Limit>& freeze_limit);
/// The same of a place, by its own range.
std::optional<Remark> shown_out(World& world, const std::string& place);

/// For an answer about a window, which may hold time before the check.
std::vector<Remark> shown_before(World& world, const std::string& place, const Window& window);

}  // namespace coldtally::answers
