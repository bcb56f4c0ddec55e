// Forms: answers as JSON and as tables for people.
#pragma once

#include <string>

#include "coldtally/answers.hpp"
#include "coldtally/logger.hpp"

namespace coldtally {

/// JSON of an answer in one line with a line end; the same bytes on every machine.
std::string to_json(const StockAnswer&);
std::string to_json(const ListsAnswer&);
std::string to_json(const ReviewAnswer&);
std::string to_json(const ExcursionsAnswer&);
std::string to_json(const ConditionsAnswer&);
std::string to_json(const Explanation&);
std::string to_json(const Verification&);
std::string to_json(const ImportReport&);
/// The JSON of a history, as a transfer hands it over and a receive takes it in.
std::string to_json(const History&, const std::vector<Duration>& allowance_seconds);

/// How a table is to look. Nothing of it changes what is said.
struct TableStyle {
    Zone zone;               ///< local times are shown in it
    Scale scale = Scale::C;  ///< temperatures are shown in it
    int columns = 100;       ///< width to fit, in character cells
    bool color = false;      ///< adds terminal colours; words say the same without
};

/// Tables for people: lines that fit style.columns, with a line end each. Lists end with the caution.
std::string to_table(const StockAnswer&, const TableStyle&);
std::string to_table(const ListsAnswer&, const TableStyle&);
std::string to_table(const ReviewAnswer&, const TableStyle&);
std::string to_table(const ExcursionsAnswer&, const TableStyle&);
std::string to_table(const ConditionsAnswer&, const TableStyle&);
std::string to_table(const Explanation&, const TableStyle&);
std::string to_table(const ImportReport&, const TableStyle&);

/// As people say it: "3 h 20 min", "2 d 4 h", "45 s"; whole minutes from one hour on.
/// `up`: rounded up (exposure); else down (what is left). A value that is not 0 is never said to be 0 when rounded up.
std::string duration_words(const Rational& seconds, bool up);
/// "4.2 °C" or "39.6 °F": at most one fractional digit, rounded away from `toward_limit_C`'s comfort: see the .cpp.
std::string temperature_words(const Rational& celsius, Scale scale);

/// The caution that every list and paper ends with.
extern const char* const caution;

}  // namespace coldtally
