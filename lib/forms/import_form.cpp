// What was read in from files of loggers, as JSON and in lines.
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/drafts.hpp"
#include "words/file.hpp"
#include "words/lists.hpp"

namespace coldtally {

using namespace forms;

namespace {

/// Of the binary fractions between logger and file; what changes more was written finer.
constexpr std::string_view noise = "0.00001";

Remark what_is_new(const ImportedFile& file) {
    if (file.known_already) return words::same_file_known;
    return words::new_of(file.rows_kept, words::readings(file.rows_read));
}

Remark rounded_words(const ImportedFile& file) {
    Remark out = words::rounded_to(file.layout.resolution->text(), words::readings(file.rows_rounded));
    if (!file.largest_change) return out;
    out = words::rounded_by_at_most(std::move(out), *file.largest_change);
    return *file.largest_change > noise ? words::rounding_may_decide(std::move(out)) : out;
}

void add_file(TableLayout& table, const ImportedFile& file, const TableStyle& style, bool dry_run) {
    const auto line = [&](const Remark& text) { table.text(text, 2, 2); };
    table.text(words::colon(file.name, what_is_new(file)), 0, 2, TableLayout::Paint::bold);
    line(words::sha_256(file.sha256));
    if (file.known_already) return;
    if (file.from && file.until) {
        const Remark readings = words::readings_from_to(style.zone.local_text(*file.from),
                                                        style.zone.local_text(*file.until), style.zone.name());
        line(file.longest_step
                 ? words::longest_step(readings, duration_words(Rational(file.longest_step->seconds()), true))
                 : readings);
    }
    line(words::rows_read(file.rows_read, file.rows_kept, file.rows_repeated, file.rows_without_reading,
                          file.rows_ignored));
    if (file.layout.resolution) line(rounded_words(file));
    for (const auto& guess : file.guesses) line(words::guessed(guess));
    for (const auto& doubt : file.ambiguous) line(words::could_be_otherwise(doubt));
    for (const auto& remark : file.remarks) line(words::remark(remark));
    if (file.entries.empty()) return line(words::nothing_posted);
    line((dry_run ? words::would_be_posted_as : words::posted_as)(words::entries_of(file.entries)));
}

}  // namespace

std::string to_json(const ImportReport& report, bool dry_run, const IncidentsAnswer* found) {
    Json out;
    out["dry_run"] = dry_run;
    out["files"] = Json::array();
    for (const auto& file : report.files) {
        Json one = {{"name", file.name}, {"sha256", file.sha256}, {"known_already", file.known_already}};
        one["layout"] = Json::parse(file.layout.text());
        set_remarks(one, "guesses", file.guesses);
        set_remarks(one, "ambiguous", file.ambiguous);
        one["rows_read"] = file.rows_read;
        one["rows_kept"] = file.rows_kept;
        one["rows_repeated"] = file.rows_repeated;
        one["rows_refused"] = 0;  // a file with a refused row is refused whole, and there is no report
        one["rows_without_reading"] = file.rows_without_reading;
        one["rows_ignored"] = file.rows_ignored;
        one["rows_rounded"] = file.rows_rounded;
        one["largest_change"] = file.largest_change ? Json(*file.largest_change) : Json(nullptr);
        set_remarks(one, "remarks", file.remarks);
        one["from"] = json_or_null(file.from);
        one["until"] = json_or_null(file.until);
        one["longest_step_s"] = file.longest_step ? Json(file.longest_step->seconds()) : Json(nullptr);
        one["entries"] = Json(file.entries);
        out["files"].push_back(std::move(one));
    }
    set_remarks(out, "warnings", report.warnings);
    if (found) {
        out["found"] = Json::parse(to_json(*found));
        out["found_in_short"] = Json::parse(to_json(in_short(*found)));
    }
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const ImportReport& report, const TableStyle& style, bool dry_run) {
    TableLayout table(*style.book);
    if (dry_run) table.text(words::dry_run_would_be(), 0, 2, TableLayout::Paint::wait);
    bool first = true;
    for (const auto& file : report.files) {
        if (!first) table.blank();
        first = false;
        add_file(table, file, style, dry_run);
    }
    for (const auto& warning : report.warnings)
        table.text(words::warning_line(warning), 0, 2, TableLayout::Paint::stop);
    if (!report.warnings.empty()) add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
