#include "forms/table_layout.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <optional>

#include "words/lists.hpp"

namespace coldtally::forms {
namespace {

constexpr int row_indent = 2;
constexpr int between_columns = 2;
constexpr int below_indent = 6, below_hang = 2;  // of what goes below a row
constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr utf8proc_int32_t replacement_code = 0xFFFD;

// Takes one code point off the front. What is not UTF-8 counts as U+FFFD, a byte at a time.
utf8proc_int32_t take_code(std::string_view& text) {
    utf8proc_int32_t code = -1;
    const auto taken = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                        static_cast<utf8proc_ssize_t>(text.size()), &code);
    if (taken <= 0) {
        text.remove_prefix(1);
        return replacement_code;
    }
    text.remove_prefix(static_cast<std::size_t>(taken));
    return code;
}

// Marks that turn the direction of what follows could show a lot's number otherwise than it is.
bool turns_direction(utf8proc_int32_t code) {
    return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

// The bytes of the first character as people see it: a code point and what combines with it.
std::size_t first_character(std::string_view text) {
    std::string_view rest = text;
    utf8proc_int32_t before = take_code(rest);
    utf8proc_int32_t state = 0;
    while (!rest.empty()) {
        std::string_view after = rest;
        const utf8proc_int32_t code = take_code(after);
        if (utf8proc_grapheme_break_stateful(before, code, &state)) break;
        before = code;
        rest = after;
    }
    return text.size() - rest.size();
}

void split(std::string_view text, bool keep_numbers, std::vector<std::string_view>& into) {
    std::size_t from = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (i < text.size() && text[i] != ' ') continue;
        const bool inside = i > from && i + 1 < text.size() && text[i + 1] != ' ';
        if (keep_numbers && inside && text[i - 1] >= '0' && text[i - 1] <= '9') continue;
        if (i > from) into.push_back(text.substr(from, i - from));
        from = i + 1;
    }
}

// What is not to be broken: words, and a number with its unit ("3 h") where there is room for both.
std::vector<std::string_view> words_of(std::string_view text, int room) {
    std::vector<std::string_view> kept, words;
    split(text, true, kept);
    for (const auto& one : kept) {
        if (display_width(one) <= room)
            words.push_back(one);
        else
            split(one, false, words);
    }
    return words;
}

void trim_end(std::string& line) {
    while (!line.empty() && line.back() == ' ') line.pop_back();
}

std::string_view paint_code(TableLayout::Paint paint) {
    switch (paint) {
        case TableLayout::Paint::plain: return "";
        case TableLayout::Paint::bold: return "\x1b[1m";
        case TableLayout::Paint::stop: return "\x1b[1;31m";
        case TableLayout::Paint::wait: return "\x1b[1;33m";
        case TableLayout::Paint::go: return "\x1b[1;32m";
    }
    return "";
}

}  // namespace

int display_width(std::string_view text) {
    int width = 0;
    while (!text.empty()) width += utf8proc_charwidth(take_code(text));
    return width;
}

std::string printable(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::string_view before = text;
        const utf8proc_int32_t code = take_code(text);
        if (code == '\n' || code == '\t' || code == '\r' || code == 0x2028 || code == 0x2029)
            out += ' ';
        else if (code == replacement_code || utf8proc_category(code) == UTF8PROC_CATEGORY_CC || turns_direction(code))
            out += replacement;
        else
            out += before.substr(0, before.size() - text.size());
    }
    return out;
}

std::vector<std::string> wrap(std::string_view text, int width, int first_width) {
    std::vector<std::string> lines;
    std::string line;
    int used = 0;
    const auto room = [&] { return lines.empty() ? first_width : width; };
    const auto end_line = [&] {
        lines.push_back(std::move(line));
        line.clear();
        used = 0;
    };
    for (std::string_view word : words_of(text, std::min(width, first_width))) {
        const int wide = display_width(word);
        if (used > 0 && used + 1 + wide <= room()) {
            line.append(" ").append(word);
            used += 1 + wide;
            continue;
        }
        if (used > 0) end_line();
        while (!word.empty()) {
            const std::string_view character = word.substr(0, first_character(word));
            const int cells = display_width(character);
            if (used > 0 && used + cells > room()) end_line();
            word.remove_prefix(character.size());
            line += character;
            used += cells;
        }
    }
    if (!line.empty() || lines.empty()) lines.push_back(std::move(line));
    return lines;
}

TableLayout::TableLayout(const Phrasebook& book, std::vector<Column> columns)
    : book_(book), columns_(std::move(columns)) {
    for (auto& column : columns_) column.title = book_.say(column.title);
}

void TableLayout::titles() { items_.push_back({Item::Kind::titles, {}, 0, 0, Paint::bold}); }

void TableLayout::row(const std::vector<Field>& cells) {
    std::vector<std::string> said;
    for (const auto& cell : cells) said.push_back(printable(book_.say(cell)));
    said.resize(columns_.size());
    items_.push_back({Item::Kind::row, std::move(said), 0, 0, Paint::plain});
}

void TableLayout::text(const Field& text, int indent, int hang, Paint paint) {
    items_.push_back({Item::Kind::text, {printable(book_.say(text))}, indent, hang, paint});
}

void TableLayout::blank() { items_.push_back({Item::Kind::blank, {}, 0, 0, Paint::plain}); }

namespace {

/// The least width at which no word of the text is broken.
int longest_word(std::string_view text) {
    int longest = 0;
    for (const std::string_view word : words_of(text, 2)) longest = std::max(longest, display_width(word));
    return longest;
}

/// What columns of these widths take, those of width 0 left out.
int taken(const std::vector<int>& widths) {
    int sum = row_indent - between_columns;
    for (const int one : widths)
        if (one > 0) sum += one + between_columns;
    return sum;
}

/// Which column goes below next; none where only the first is left.
std::optional<std::size_t> next_to_fall(const std::vector<TableLayout::Column>& columns,
                                        const std::vector<int>& widths, bool any) {
    std::optional<std::size_t> next;
    bool first = true;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (widths[i] == 0) continue;
        if (!first && (any || columns[i].falls > 0) && (!next || columns[i].falls >= columns[*next].falls)) next = i;
        first = false;
    }
    return next;
}

}  // namespace

TableLayout::Widths TableLayout::widths(int width) const {
    Widths out{std::vector<int>(columns_.size(), 0), std::vector<int>(columns_.size(), 0), {}};
    const auto look = [&](std::size_t i, std::string_view text, bool breaks) {
        out.whole[i] = std::max(out.whole[i], display_width(text));
        out.least[i] = std::max(out.least[i], breaks ? longest_word(text) : display_width(text));
    };
    for (const auto& item : items_)
        if (item.kind == Item::Kind::row)
            for (std::size_t i = 0; i < columns_.size(); ++i)
                look(i, item.cells[i], columns_[i].kind == Column::Kind::text);
    std::vector<int> floor(columns_.size(), 0);
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (out.whole[i] == 0) continue;
        look(i, columns_[i].title.text, columns_[i].kind != Column::Kind::fixed);
        floor[i] = std::max(out.least[i], std::min(out.whole[i], columns_[i].least));
    }

    out.shown = out.whole;
    for (const bool any : {false, true}) {
        while (taken(floor) > width) {
            const auto next = next_to_fall(columns_, floor, any);
            if (!next) break;
            floor[*next] = out.shown[*next] = 0;
        }
        if (taken(floor) <= width) break;
        for (std::size_t i = 0; i < floor.size(); ++i) floor[i] = std::min(floor[i], out.least[i]);
    }

    // the widest gives way first, so that short columns stay whole
    const auto narrow = [&](const std::vector<int>& least) {
        for (int sum = taken(out.shown); sum > width; --sum) {
            int* widest = nullptr;
            for (std::size_t i = 0; i < floor.size(); ++i)
                if (out.shown[i] > least[i] && (!widest || out.shown[i] > *widest)) widest = &out.shown[i];
            if (!widest) break;
            --*widest;
        }
    };
    narrow(floor);
    narrow(std::vector<int>(columns_.size(), 2));  // the first alone is left, and has a word longer than a line
    return out;
}

void TableLayout::render_cells(const std::vector<std::string>& cells, const std::vector<int>& widths,
                               std::string& out) const {
    std::vector<std::vector<std::string>> wrapped(cells.size());
    std::size_t lines = 0;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (widths[i] == 0) continue;
        if (columns_[i].kind == Column::Kind::text || display_width(cells[i]) > widths[i])
            wrapped[i] = wrap(cells[i], widths[i]);
        else
            wrapped[i] = {cells[i]};
        lines = std::max(lines, wrapped[i].size());
    }
    for (std::size_t n = 0; n < lines; ++n) {
        std::string line(row_indent, ' ');
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (widths[i] == 0) continue;
            const std::string cell = n < wrapped[i].size() ? wrapped[i][n] : std::string();
            const std::string fill(static_cast<std::size_t>(std::max(0, widths[i] - display_width(cell))), ' ');
            line += columns_[i].kind == Column::Kind::number ? fill + cell : cell + fill;
            line.append(between_columns, ' ');
        }
        trim_end(line);
        out += line + "\n";
    }
}

void TableLayout::render_below(const std::vector<std::string>& cells, const Widths& widths, int width,
                               std::string& out) const {
    std::vector<Remark> below;
    for (std::size_t i = 0; i < cells.size(); ++i)
        if (widths.whole[i] > 0 && widths.shown[i] == 0 && !cells[i].empty() &&
            (columns_[i].kind != Column::Kind::number || cells[i] != "0"))
            below.push_back(words::colon(columns_[i].title, cells[i]));
    const auto all = words::semicolons(below);
    if (!all) return;
    const int room = width - below_indent;
    const auto lines = wrap(book_.say(*all), room - below_hang, room);
    for (std::size_t n = 0; n < lines.size(); ++n)
        out += std::string(static_cast<std::size_t>(below_indent + (n > 0 ? below_hang : 0)), ' ') + lines[n] + "\n";
}

std::string TableLayout::render(int width, bool color) const {
    const Widths widths = this->widths(width);
    std::vector<std::string> titles;
    for (const auto& column : columns_) titles.push_back(column.title.text);

    std::string out;
    for (const auto& item : items_) {
        std::string lines;
        switch (item.kind) {
            case Item::Kind::blank: lines = "\n"; break;
            case Item::Kind::titles: render_cells(titles, widths.shown, lines); break;
            case Item::Kind::row:
                render_cells(item.cells, widths.shown, lines);
                render_below(item.cells, widths, width, lines);
                break;
            case Item::Kind::text: {
                const auto parts = wrap(item.cells[0], width - item.indent - item.hang, width - item.indent);
                for (std::size_t n = 0; n < parts.size(); ++n)
                    lines += std::string(static_cast<std::size_t>(item.indent + (n > 0 ? item.hang : 0)), ' ') +
                             parts[n] + "\n";
                break;
            }
        }
        if (color && item.paint != Paint::plain && lines.size() > 1) {
            lines.pop_back();
            out += std::string(paint_code(item.paint)) + lines + "\x1b[0m\n";
        } else {
            out += lines;
        }
    }
    return out;
}

}  // namespace coldtally::forms
