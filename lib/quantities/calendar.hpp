// Days of the Gregorian calendar as numbers.
#pragma once

#include <cstdint>

#include "coldtally/quantities.hpp"

namespace coldtally::calendar {

constexpr std::int64_t floor_div(std::int64_t a, std::int64_t b) { return a / b - (a % b < 0 ? 1 : 0); }

/// Days since 1970-01-01.
std::int64_t days_of(const Date& date);
Date date_of(std::int64_t days);
int days_in_month(int year, int month);
/// A date of the years 1970 to 2199.
bool valid(const Date& date);

/// The first and last second of those years in UTC, and of what may be stated with an offset of up to 14 hours.
inline constexpr std::int64_t first_second = 0, last_second = 7'258'118'399;
inline constexpr std::int64_t first_instant = first_second - 14 * 3600, last_instant = last_second + 14 * 3600;

}  // namespace coldtally::calendar
