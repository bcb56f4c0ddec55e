// The quick way through a file of a logger against the careful one: of files made at random, in many forms, with and
// without damage, what the first takes must be what the second reads, with the same words; and it must take them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/reader.hpp"
#include "quantities/calendar.hpp"

using namespace coldtally;

namespace {

/// Numbers of our own, the same everywhere (the generator of POSIX's rand48 family).
struct Numbers {
    std::uint64_t state;
    std::size_t below(std::size_t n) {
        state = (state * 0x5DEECE66D + 11) & 0xFFFFFFFFFFFF;
        return static_cast<std::size_t>(state >> 20) % n;
    }
    bool one_in(std::size_t n) { return below(n) == 0; }
};

std::string printed(const char* form, auto... values) {
    char out[64];
    std::snprintf(out, sizeof out, form, values...);
    return out;
}

/// What a row says, before a form makes a line of it.
struct Row {
    int year, month, day, hour, minute;
    int tenths;  ///< of a degree
    std::size_t number;

    std::string degrees(char point) const {
        return printed("%s%d%c%d", tenths < 0 ? "-" : "", std::abs(tenths) / 10, point, std::abs(tenths) % 10);
    }
    std::string iso() const { return printed("%04d-%02d-%02d", year, month, day); }
    std::string time() const { return printed("%02d:%02d", hour, minute); }
    std::string half_day() const {
        return printed("%d:%02d:00 %s", hour % 12 == 0 ? 12 : hour % 12, minute, hour < 12 ? "AM" : "PM");
    }
};

struct Form {
    const char* name;
    const char* title;
    std::string (*line)(const Row&);
    const char* layout = "{}";
    Scale scale = Scale::C;
    bool always_taken = true;  ///< whatever is accepted, where nothing is damaged
};

const Form forms[] = {
    {"instants of UTC", "Time,Temp (C)\n",
     [](const Row& r) { return r.iso() + "T" + r.time() + ":00Z," + r.degrees('.'); }},
    {"two columns", "Date,Time,Temp (C)\n",
     [](const Row& r) { return r.iso() + "," + r.time() + ":30," + r.degrees('.'); }},
    {"decimal commas, day first", "Datum;Temp (C)\n",
     [](const Row& r) {
         return printed("%02d.%02d.%04d %02d:%02d;", r.day, r.month, r.year, r.hour, r.minute) + r.degrees(',');
     },
     "{}", Scale::C, false},
    {"month first, AM and PM", "Date,Time,Temp (C)\n",
     [](const Row& r) { return printed("%d/%d/%04d,", r.month, r.day, r.year) + r.half_day() + "," + r.degrees('.'); },
     "{}", Scale::C, false},
    {"month first, in one column, two digits of the year", "Date Time,Temp (C)\n",
     [](const Row& r) {
         return printed("%02d/%02d/%02d ", r.month, r.day, r.year % 100) + r.half_day() + "," + r.degrees('.');
     },
     "{}", Scale::C, false},
    {"signs and units", "Time,Temp\n",
     [](const Row& r) {
         return r.iso() + " " + r.time() + "," + (r.tenths > 0 ? "+" : "") + r.degrees('.') +
                " \xC2\xB0"
                "F";
     },
     "{}", Scale::F},
    {"units in Latin-1",
     "Time;Temp \xB0"
     "C\n",
     [](const Row& r) {
         return r.iso() + " " + r.time() + ";" + r.degrees('.') +
                "\xB0"
                "C";
     }},
    {"quotation marks", "\"Date\",\"Temp (C)\"\n",
     [](const Row& r) { return "\"" + r.iso() + " " + r.time() + "\",\"" + r.degrees(',') + "\""; }},
    {"other columns", "No.,Time,Temp (C),Humidity\n",
     [](const Row& r) {
         return std::to_string(r.number) + "," + r.iso() + " " + r.time() + "," + r.degrees('.') + "," +
                printed("%d%%", static_cast<int>(40 + r.number % 7));
     }},
    {"blanks, and a scale in each row", "Time\tTemp\tUnit\n",
     [](const Row& r) { return r.iso() + "  " + r.time() + " \t " + r.degrees('.') + "\tC"; }},
    {"the temperature first", "Temp (C)|Time\n",
     [](const Row& r) { return r.degrees('.') + "|" + r.iso() + " " + r.time(); }},
    {"no scale, and texts without a reading", "Time,Temp\n",
     [](const Row& r) {
         return r.iso() + " " + r.time() + "," + (r.number % 9 == 0 ? std::string("n/a") : r.degrees('.'));
     },
     R"({"no_reading":["n/a"]})"},
    {"binary fractions", "Time,Temp (C)\n",
     [](const Row& r) { return r.iso() + " " + r.time() + "," + r.degrees('.') + (r.number % 3 ? "00000381" : ""); },
     R"({"resolution":"0.1"})"},
    {"a layout for a part of it", "Serial,1\nTime,Temp\n",
     [](const Row& r) { return r.iso() + " " + r.time() + "," + r.degrees('.'); },
     R"({"offset":"-06:00","columns":{"instant":1},"skip_lines":2,"scale":"C"})"},
};

std::string file_of(const Form& form, Numbers& numbers, bool& damaged) {
    const char* line_end = numbers.one_in(3) ? "\r\n" : "\n";
    // the clock is put back on 2 November, and forward on 8 March
    constexpr Date first_days[] = {{2025, 10, 27}, {2026, 3, 4}, {2026, 5, 2}, {2026, 5, 8}, {2026, 7, 1}};
    const std::int64_t first_day = calendar::days_of(first_days[numbers.below(std::size(first_days))]) +
                                   static_cast<std::int64_t>(numbers.below(6));
    const std::size_t rows = 310 + numbers.below(500), step = 5 + 5 * numbers.below(8);
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < rows; ++i) {
        const std::size_t minute = i * step;
        const Date date = calendar::date_of(first_day + static_cast<std::int64_t>(minute / 1440));
        lines.push_back(form.line({date.year, date.month, date.day, static_cast<int>(minute / 60 % 24),
                                   static_cast<int>(minute % 60), static_cast<int>(numbers.below(120)) - 20, i + 1}));
    }
    const auto from = lines.begin() + static_cast<std::ptrdiff_t>(numbers.below(rows - 40));
    switch (numbers.below(8)) {
    case 0: std::reverse(lines.begin(), lines.end()); break;                     // the newest first
    case 1: std::rotate(lines.begin(), lines.begin() + 40, lines.end()); break;  // a memory written in a ring
    case 2: {
        const std::vector<std::string> again(from, from + 30);
        lines.insert(from + 30, again.begin(), again.end());
        break;
    }
    case 3: lines.insert(from, *from); break;
    default: break;
    }
    damaged = numbers.one_in(2);
    for (std::size_t changes = damaged ? 1 + numbers.below(2) : 0; changes > 0; --changes) {
        const std::size_t which = numbers.below(lines.size());
        std::string& line = lines[which];
        if (line.empty()) continue;
        const std::size_t at = numbers.below(line.size());
        constexpr std::string_view other = "0123456789-.,:;/ TZ\"\r\t+FC\xB0\xC2\0";
        const char c = other[numbers.below(other.size())];
        switch (numbers.below(7)) {
        case 0: line[at] = c; break;
        case 1: line.erase(at, 1); break;
        case 2: line.insert(at, 1 + numbers.below(3), c); break;
        case 3: line = lines[which == 0 ? 0 : which - 1]; break;
        case 4: std::swap(line, lines[numbers.below(lines.size())]); break;
        case 5: line.clear(); break;
        default: line = line.substr(0, at) + line.substr(std::min(at + 3, line.size()));
        }
    }
    std::string content = form.title;
    for (const auto& line : lines) content += line + line_end;
    if (numbers.one_in(2)) content.resize(content.size() - std::string(line_end).size());
    return content;
}

/// All that an import tells of a file.
std::string told(const logger::ReadFile& file) {
    const ImportedFile& r = file.report;
    std::string out = r.name + "\n" + r.layout.text() + "\n";
    for (const auto* remarks : {&r.guesses, &r.ambiguous, &r.remarks})
        for (const Remark& remark : *remarks) out += std::string(remark.code()) + ": " + english().say(remark) + "\n";
    for (const std::int64_t n : {r.rows_read, r.rows_kept, r.rows_repeated, r.rows_without_reading, r.rows_ignored,
                                 r.rows_rounded, r.longest_step ? r.longest_step->seconds() : -1})
        out += std::to_string(n) + " ";
    return out + r.largest_change.value_or("") + " " + r.from->text() + " " + r.until->text();
}

}  // namespace

TEST_CASE("the quick way reads what the careful one reads, in the same words", "[logger][quick]") {
    Numbers numbers{2026};
    const Zone zone("America/New_York");
    struct Count {
        int whole = 0, whole_taken = 0, damaged_taken = 0, refused = 0;
    };
    std::vector<Count> counts(std::size(forms));
    for (int round = 0; round < 2800; ++round) {
        const std::size_t which = static_cast<std::size_t>(round) % std::size(forms);
        const Form& form = forms[which];
        bool damaged = false;
        const LoggerFile file{"download.csv", file_of(form, numbers, damaged)};
        const bool accept = !numbers.one_in(6);
        LoggerLayout layout = LoggerLayout::parse(form.layout);
        std::optional<logger::ReadFile> careful;
        try {
            careful = logger::read_carefully(file, layout, zone, form.scale, accept);
            if (numbers.one_in(3)) {  // with the layout that it found
                layout = careful->report.layout;
                careful = logger::read_carefully(file, layout, zone, form.scale, accept);
            }
        } catch (const Error&) {
        }
        const auto quick = logger::read_quickly(file, layout, zone, form.scale, accept);
        INFO(form.name << "\n" << layout.text() << "\n" << file.content);
        Count& count = counts[which];
        count.refused += !careful;
        count.whole += careful && !damaged;
        if (!quick) continue;
        REQUIRE(careful);
        ++(damaged ? count.damaged_taken : count.whole_taken);
        CHECK(told(*quick) == told(*careful));
        CHECK(quick->rows == careful->rows);
        CHECK(std::equal(quick->rows.begin(), quick->rows.end(), careful->rows.begin(), careful->rows.end(),
                         [](const auto& a, const auto& b) { return a.line == b.line; }));
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
        INFO(forms[i].name << ": " << counts[i].whole_taken << " of " << counts[i].whole << " whole ones taken, and "
                           << counts[i].damaged_taken << " damaged ones; " << counts[i].refused << " refused");
        CHECK(counts[i].whole >= 10);
        CHECK(counts[i].damaged_taken >= 5);
        CHECK(counts[i].refused >= 5);
        if (forms[i].always_taken)
            CHECK(counts[i].whole_taken == counts[i].whole);
        else
            CHECK(10 * counts[i].whole_taken >= 8 * counts[i].whole);
    }
}

TEST_CASE("no clock shows 24:05, though it would be in order", "[logger][quick]") {
    std::string content = "Time,Temp (C)\n";
    for (int i = 0; i < 500; ++i)
        content += printed("2026-03-%02dT%02d:%02d:00Z,4.0\n", 1 + i / 144, i == 460 ? 24 : i / 6 % 24, i % 6 * 10);
    CHECK(!logger::read_quickly({"download.csv", content}, {}, Zone("UTC"), Scale::C, true));
}
