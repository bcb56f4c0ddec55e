// TableLayout: text in columns for terminals and plain print, aligned by display width.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/words.hpp"

namespace coldtally::forms {

/// Character cells the text takes: 2 for a wide character, 0 for a combining one.
int display_width(std::string_view text);

/// The text as one line that does to a terminal, and to the order of its characters, nothing but show itself: line ends
/// and tabs become blanks; control characters, marks of direction and what is not UTF-8 become U+FFFD.
std::string printable(std::string_view text);

/// Lines of at most `width` cells, the first of at most `first_width` (both from 2): broken at blanks, but not after a
/// digit ("3 h"); where a word is longer, between any two characters as people see them. At least one line.
std::vector<std::string> wrap(std::string_view text, int width, int first_width);
inline std::vector<std::string> wrap(std::string_view text, int width) { return wrap(text, width, width); }

class TableLayout {
public:
    struct Column {
        Field title;
        enum class Kind {
            text,    ///< to the left; goes on in the next line where it is too long
            fixed,   ///< to the left; never broken
            number,  ///< to the right; never broken, but for its title
        } kind = Kind::text;
        /// Where a line does not hold all columns, the one with the highest number goes below its row first, behind its
        /// title ("Mark: bin 2"). 0: only when no other is left, the last before the others; the first column stays.
        int falls = 0;
        /// Of a text: no narrower than this (as far as it has so much to say) while another column can go below.
        int least = 0;
    };
    enum class Paint { plain, bold, stop, wait, go };

    /// A column in which every row is empty is left out. The book says what is put in, and outlives the table.
    explicit TableLayout(const Phrasebook& book, std::vector<Column> columns = {});

    void titles();                             ///< the columns' titles, in a line of their own
    void row(const std::vector<Field>& cells);  ///< as many as there are columns
    /// A paragraph; its second line and the following are indented by `hang` more than its first.
    void text(const Field& text, int indent = 0, int hang = 0, Paint paint = Paint::plain);
    void blank();

    /// Lines of at most `width` cells, without blanks at their ends, each with a line end. No word is broken but one
    /// that is longer than a line: columns that find no room go below their rows.
    std::string render(int width, bool color) const;

private:
    struct Item {
        enum class Kind { titles, row, text, blank } kind;
        std::vector<std::string> cells;  // as said: of a row; the text alone
        int indent = 0, hang = 0;
        Paint paint = Paint::plain;
    };
    /// How wide each column is; 0: empty in every row, and left out.
    struct Widths {
        std::vector<int> whole;  ///< so that no cell is broken
        std::vector<int> least;  ///< so that no word is broken
        std::vector<int> shown;  ///< in its line; 0 also where the column goes below its rows
    };
    Widths widths(int width) const;
    void render_cells(const std::vector<std::string>& cells, const std::vector<int>& widths, std::string& out) const;
    void render_below(const std::vector<std::string>& cells, const Widths& widths, int width, std::string& out) const;

    const Phrasebook& book_;
    std::vector<Column> columns_;
    std::vector<Item> items_;
};

}  // namespace coldtally::forms
