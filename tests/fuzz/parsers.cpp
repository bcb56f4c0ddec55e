// Parsers: entries, GS1 codes, FHIR records, logger files, quantities and blocks of readings.
#include <algorithm>

#include "coldtally/columns.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/entries.hpp"
#include "coldtally/fhir.hpp"
#include "coldtally/gs1.hpp"
#include "coldtally/logger.hpp"
#include "entries/parse.hpp"
#include "entries/print.hpp"
#include "fuzz/check.hpp"
#include "fuzz/targets.hpp"
#include "ledger/blocks.hpp"
#include "logger/reader.hpp"
#include "start/describe.hpp"

namespace fuzz {

using namespace coldtally;

namespace {

const Zone& clinic_zone() {
    static const Zone zone("America/Chicago");
    return zone;
}

const Instant now(1772409600);  // 2026-03-02T00:00:00Z

/// What is read is printed, read again, and printed the same.
void round_trip(const std::string& text, entries::Form form) {
    static const Zone utc("UTC");
    const Entry again = entries::parse_entry(text::parse_json(text, "again"), &utc, "again", form);
    must(to_json(again) == text, "read again it is another: " + text.substr(0, 500));
}

void rows_ascend(const auto& rows, const char* what) {
    for (std::size_t i = 1; i < rows.size(); ++i)
        must(rows[i - 1].at < rows[i].at, std::string(what) + ": rows do not ascend");
}

/// What the quick way takes, the careful one takes, and reads the same.
void two_ways(const LoggerFile& file, const LoggerLayout& layout, bool accept) {
    const auto quick = logger::read_quickly(file, layout, clinic_zone(), Scale::C, accept);
    if (!quick) return;
    bool read = false;
    refusing([&] {
        const auto careful = logger::read_carefully(file, layout, clinic_zone(), Scale::C, accept);
        read = true;
        must(quick->rows == careful.rows, "the quick way reads other rows");
        const auto &a = quick->report, &b = careful.report;
        must(a.layout.text() == b.layout.text() && a.guesses == b.guesses && a.ambiguous == b.ambiguous &&
                 a.remarks == b.remarks && a.rows_ignored == b.rows_ignored &&
                 a.rows_without_reading == b.rows_without_reading && a.rows_rounded == b.rows_rounded,
             "the quick way tells something else");
    });
    must(read, "the quick way takes a file that is refused");
}

void read_file(std::string_view bytes, const LoggerLayout& layout, bool accept) {
    LoggerFile file{"a.csv", std::string(bytes)};
    refusing([&] {
        const auto read = logger::read_logger_file(file, layout, clinic_zone(), Scale::C, accept);
        must(!read.rows.empty(), "a file without rows is taken");
        rows_ascend(read.rows, "a file");
    });
    // its last line so often that the quick way is tried, and with something else among its rows
    const auto begin = bytes.substr(0, bytes.find_last_not_of('\n') + 1).rfind('\n') + 1;
    const std::string line = std::string(bytes.substr(begin, bytes.find('\n', begin) - begin)) + "\n";
    if (line.size() > 100) return;
    if (!file.content.ends_with('\n')) file.content += '\n';
    for (int i = 0; i < 310; ++i) file.content += line;
    two_ways(file, layout, accept);
    file.content += std::string(bytes.substr(0, 200)) + "\n" + line;
    two_ways(file, layout, accept);
}

}  // namespace

void entries_posted(std::string_view bytes) {
    refusing([&] {
        Entry entry;
        for (const auto& line : text::lines_of(bytes)) {
            const std::string where = "line " + std::to_string(line.number);
            entry =
                entries::parse_entry(text::parse_json(line.text, where), &clinic_zone(), where, entries::Form::posted);
            entry.number = 7;
            entry.recorded = now;
            round_trip(to_json(entry), entries::Form::exported);
        }
    });
}

void entries_stored(std::string_view bytes) {
    refusing([&] {
        const Entry entry =
            entries::parse_entry(text::parse_json(bytes, "entry 7"), &clinic_zone(), "entry 7", entries::Form::stored);
        round_trip(to_json(entry), entries::Form::stored);
    });
}

void start(std::string_view bytes) {
    const StartRequest request{"file", std::string(bytes), "ab", {}};
    for (const auto& zone : {std::optional<Zone>(), std::optional<Zone>(clinic_zone())})
        refusing([&] {
            const auto description = coldtally::start::describe(request, zone, now);
            for (const auto& row : description.rows) static_cast<void>(row.fields.dump());
            for (const auto& m : description.mistakes) {
                must(!m.text.empty() && m.text.find('\n') == std::string::npos, "a mistake that is no line: " + m.text);
                must(m.text.size() <= longest_message, "a mistake of " + std::to_string(m.text.size()) + " bytes");
            }
        });
}

void gs1(std::string_view bytes) {
    is_gs1_scan(bytes);
    gtin_14(bytes);
    refusing([&] {
        const auto scan = parse_gs1_scan(bytes, 2026);
        if (scan.gtin) must(gtin_14(*scan.gtin) == scan.gtin, "a GTIN that is none: " + *scan.gtin);
        if (scan.expiry) Date::parse_expiry(*scan.expiry);
    });
}

void fhir(std::string_view bytes) {
    refusing([&] {
        for (const auto& read : parse_immunizations(bytes).records) {
            const std::string written = to_fhir_json(read.record);
            must(written.find('\n') == std::string::npos, "a record of two lines");
            text::parse_json(written, "written");
        }
    });
    refusing([&] { check_fhir_date(bytes, bytes.size() % 2 == 0); });
}

void logger_guess(std::string_view bytes) {
    read_file(bytes, {}, false);
    read_file(bytes, {}, true);
}

void logger_layout(std::string_view bytes) {
    // the layout's JSON up to a line of three hyphens, then the file
    const auto mark = bytes.find("\n---\n");
    const auto layout_text = bytes.substr(0, mark);
    refusing([&] {
        const LoggerLayout layout = LoggerLayout::parse(layout_text);
        must(LoggerLayout::parse(layout.text()).text() == layout.text(), "a layout read again is another");
        if (mark != std::string_view::npos) read_file(bytes.substr(mark + 5), layout, true);
    });
}

void quantities(std::string_view bytes) {
    const auto same = [](const std::string& a, const std::string& b) {
        must(a == b, "\"" + a + "\" read again is \"" + b + "\"");
    };
    const std::string text(bytes);
    static const Zone utc("UTC");
    refusing([&] {
        const Instant at = parse_instant(text, clinic_zone());
        same(at.text(), parse_instant(at.text(), utc).text());
        clinic_zone().local_text(at);
        clinic_zone().end_of_day(clinic_zone().local(at).date);
    });
    refusing([&] { same(text, Date::parse(text).text()); });
    refusing([&] { Date::parse_expiry(text); });
    for (const Scale scale : {Scale::C, Scale::F})
        refusing([&] {
            const auto t = Temperature::parse(text, scale);
            same(t.text(), Temperature::parse(t.text(), scale).text());
            t.celsius().text();
        });
    refusing([&] {
        const auto d = TemperatureDifference::parse(text);
        same(d.text(), TemperatureDifference::parse(d.text()).text());
    });
    refusing([&] {
        const auto n = Rational::parse(text);
        same(n.text(), text);
        if (n.sign() >= 0 && n < Rational(1'000'000'000)) {
            must(!duration_words(n, true).empty(), "a duration without words");
            duration_words(n, false);
        }
        (n * n + n).text();
    });
    refusing([&] { Zone(text).offset_at(now); });
    refusing([&] { DegreesColumn(TemperatureDifference(100)).read(bytes); });
    refusing([&] { DegreesColumn(std::nullopt).read(bytes); });
    refusing([&] { typed_instant(bytes, clinic_zone(), now); });
    refusing([&] { typed_from(bytes, clinic_zone(), now); });
    refusing([&] { typed_until(bytes, clinic_zone(), now, now - Duration(86400)); });
}

void block(std::string_view bytes) {
    std::vector<Reading> rows, over(3, Reading{Instant(1), 1});
    bool taken = false;
    refusing([&] {
        ledger::decode_block(bytes, rows);
        taken = true;
    });
    refusing([&] {
        ledger::decode_block_over(bytes, over);
        must(taken && over == rows, "decoded over others it is another block");
    });
    if (!taken) return;
    must(!rows.empty(), "a block without readings is taken");
    rows_ascend(rows, "a block");
    if (rows.size() > ledger::readings_per_block) return;
    std::vector<Reading> again;
    const auto encoded = ledger::encode_block(rows);
    ledger::decode_block({reinterpret_cast<const char*>(encoded.data()), encoded.size()}, again);
    must(again == rows, "a block encoded and decoded is another");
    ledger::summary_of(rows);
}

}  // namespace fuzz
