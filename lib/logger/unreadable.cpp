#include "logger/unreadable.hpp"

#include <algorithm>
#include <unordered_set>

#include "logger/cell.hpp"
#include "logger/ignore_rows.hpp"
#include "logger/table.hpp"
#include "text/limits.hpp"

namespace coldtally::logger {

namespace {

constexpr std::size_t most_texts = 20;           // of a kind that a remedy states
constexpr std::size_t longest_expression = limits::layout_text_bytes;
constexpr std::size_t most_shapes = 4096;        // of lines, among which expressions are looked for

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Of a line all but what its numbers are.
std::string shape_of(std::string_view line) {
    std::string out;
    for (std::size_t i = 0; i < line.size(); ++i)
        if (!is_digit(line[i]))
            out += line[i];
        else if (i == 0 || !is_digit(line[i - 1]))
            out += '0';
    return out;
}

/// A regular expression for a text, for a shape with any numbers. A terminal must not obey what stands in a file.
std::string expression(std::string_view text, bool numbers) {
    std::string out;
    for (const char c : text) {
        if (c == '0' && numbers)
            out += "[0-9]+";
        else if (c == '\t')
            out += "\\t";
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            out += '.';
        else {
            if (std::string_view("^$\\.*+?()[]{}|/").find(c) != std::string_view::npos) out += '\\';
            out += c;
        }
    }
    return out;
}

/// Its beginning, not cut inside a character.
std::string_view beginning(std::string_view line) {
    std::size_t n = std::min<std::size_t>(40, line.size());
    while (n > 0 && n < line.size() && (static_cast<unsigned char>(line[n]) & 0xC0) == 0x80) --n;
    return line.substr(0, n);
}

/// How many lines the row goes over that begins there.
std::size_t lines_of_row(const Lines& lines, std::size_t at, char delimiter) {
    RecordReader reader(delimiter, true);
    for (std::size_t n = 1; n <= limits::logger_row_lines && at + n <= lines.size(); ++n) {
        const auto state = reader.take(lines[at + n - 1]);
        if (state == RecordReader::State::complete) return n;
        if (state == RecordReader::State::malformed) return 1;
    }
    return 1;
}

/// Expressions that are found in these lines and in no other.
class Expressions {
public:
    /// `bad`: ascending.
    Expressions(const Lines& lines, std::size_t skipped, const std::vector<std::size_t>& bad) {
        if (bad.empty()) return;
        for (const std::size_t i : bad) {
            if (lines[i].size() > limits::logger_line_bytes) continue;
            if (shapes_.size() < most_shapes) shapes_.insert(shape_of(lines[i]));
            if (beginnings_.size() < most_shapes) beginnings_.insert(std::string(beginning(lines[i])));
        }
        for (std::size_t i = skipped; i < lines.size(); ++i) {
            if (std::binary_search(bad.begin(), bad.end(), i) || lines[i].size() > limits::logger_line_bytes) continue;
            shapes_.erase(shape_of(lines[i]));
            beginnings_.erase(std::string(beginning(lines[i])));
        }
    }
    /// Empty: there is none.
    std::string of(std::string_view line) const {
        if (line.size() > limits::logger_line_bytes) return {};
        const std::string shape = shape_of(line);
        if (const std::string any = expression(shape, true);
            shapes_.contains(shape) && any.size() + 2 <= longest_expression)
            return "^" + any + "$";
        if (const std::string whole = expression(line, false); whole.size() + 2 <= longest_expression)
            return "^" + whole + "$";
        const auto start = beginning(line);
        return beginnings_.contains(std::string(start)) ? "^" + expression(start, false) : std::string();
    }

private:
    std::unordered_set<std::string> shapes_, beginnings_;  // of no line that is read
};

}  // namespace

void Unreadable::add(int line, std::string what, Way way, std::string_view value) {
    rows_.push_back({line, way});
    // two passes find them, each in the order of the lines
    const auto later = [](const LoggerRefusal::Row& a, const LoggerRefusal::Row& b) { return a.line < b.line; };
    LoggerRefusal::Row row{{}, line, std::move(what)};
    first_.insert(std::upper_bound(first_.begin(), first_.end(), row, later), std::move(row));
    if (first_.size() > LoggerRefusal::most_rows) first_.pop_back();
    if (way == Way::offset) offsets_.insert(std::string(value));
    if (way != Way::no_reading || texts_.contains(std::string(value))) return;
    if (texts_.size() < most_texts)
        texts_.insert(std::string(value));
    else
        untold_.push_back(line);
}

LoggerRefusal Unreadable::refusal(const std::string& file, const Lines& lines,
                                  std::size_t skipped, char delimiter) const {
    std::vector<Row> rows = rows_;
    std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.line < b.line; });
    LoggerRefusal::Facts facts;
    facts.unreadable = std::ssize(rows);
    facts.rows = first_;
    for (auto& row : facts.rows) row.file = file;
    facts.found = file + (rows.size() == 1 ? ": line " + std::to_string(first_[0].line) + ": " + first_[0].what
                                           : ": " + std::to_string(rows.size()) + " rows cannot be read");
    const std::size_t all = lines.size() - std::min(skipped, lines.size());
    if (rows.size() > 10 && rows.size() > all / 10)
        facts.found +=
            " of " + std::to_string(all) + " lines; so many may mean that the layout is wrong and not the rows";

    Remedy remedy;
    for (const auto& text : texts_) remedy.layout.no_reading.push_back(text);
    std::vector<std::size_t> bad;
    for (const Row& r : rows)
        if (r.way == Way::ignore) {
            const auto at = static_cast<std::size_t>(r.line) - 1;
            for (std::size_t n = lines_of_row(lines, at, delimiter); n > 0; --n) bad.push_back(at + n - 1);
        }
    std::sort(bad.begin(), bad.end());
    bad.erase(std::unique(bad.begin(), bad.end()), bad.end());
    std::vector<int> untold = untold_;
    std::sort(untold.begin(), untold.end());
    const Expressions expressions(lines, skipped, bad);
    std::set<std::string> known;
    const auto matched = [&](std::size_t at) {
        if (is_blank(lines[at])) return true;  // never a row
        const std::string one = expressions.of(lines[at]);
        if (one.empty()) return false;
        if (known.contains(one)) return true;
        if (known.size() == most_texts) return false;
        known.insert(one);
        remedy.layout.ignore_rows.push_back(one);
        return true;
    };
    for (const Row& r : rows) {
        bool let_through = r.way != Way::none && !std::binary_search(untold.begin(), untold.end(), r.line);
        if (r.way == Way::ignore) {
            const auto at = static_cast<std::size_t>(r.line) - 1;
            for (std::size_t n = 0, of = lines_of_row(lines, at, delimiter); n < of; ++n)
                let_through = matched(at + n) && let_through;
        }
        if (r.way == Way::resolution) remedy.layout.resolution = resolution_of(3);
        facts.without_remedy += !let_through;
    }
    if (remedy.layout.text() != "{}") facts.remedies.push_back(std::move(remedy));
    for (const auto& offset : offsets_) {
        Remedy fixed;
        fixed.when = "the logger's clock does not change between winter and summer";
        fixed.layout = LoggerLayout::parse(R"({"offset":")" + offset + "\"}");
        facts.remedies.push_back(std::move(fixed));
    }
    return LoggerRefusal(Code::bad_row, std::move(facts));
}

namespace {

template <class T>
void add_new(std::vector<T>& to, const std::vector<T>& from) {
    for (const T& one : from)
        if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
}

}  // namespace

LoggerRefusal together(const std::vector<LoggerRefusal>& refusals) {
    if (refusals.size() == 1) return refusals.front();
    LoggerRefusal::Facts out;
    for (const LoggerRefusal& refusal : refusals) {
        const auto& facts = refusal.facts();
        out.unreadable += facts.unreadable;
        out.without_remedy += facts.without_remedy;
        for (const auto& row : facts.rows)
            if (out.rows.size() < LoggerRefusal::most_rows) out.rows.push_back(row);
        for (const Remedy& r : facts.remedies) {
            const auto same = std::find_if(out.remedies.begin(), out.remedies.end(), [&](const Remedy& o) {
                return o.when == r.when && o.layout.offset == r.layout.offset;
            });
            if (same == out.remedies.end()) {
                out.remedies.push_back(r);
                continue;
            }
            add_new(same->layout.no_reading, r.layout.no_reading);
            add_new(same->layout.ignore_rows, r.layout.ignore_rows);
            if (r.layout.resolution) same->layout.resolution = r.layout.resolution;
        }
    }
    out.found =
        std::to_string(out.unreadable) + " rows in " + std::to_string(refusals.size()) + " files cannot be read";
    return LoggerRefusal(Code::bad_row, std::move(out));
}

}  // namespace coldtally::logger
