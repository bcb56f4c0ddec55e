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

}  // namespace coldtally::calendar
