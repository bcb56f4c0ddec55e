#include <algorithm>

#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/explanation.hpp"

namespace coldtally {

using namespace forms;

namespace {

constexpr int deepest_indent = 12;

std::string line_text(const Explanation::Line& line) {
    return std::string(static_cast<std::size_t>(line.indent), ' ') + english().say(line.text);
}

Json line_code(const Explanation::Line& line) {
    Json out{{"indent", line.indent}};
    out.update(remark_json(line.text));
    return out;
}

}  // namespace

std::string to_json(const Explanation& answer) {
    Json out = json_head(answer.head);
    Json holding;
    holding.update(holding_json(answer.holding));
    out["holding"] = std::move(holding);
    out["lines"] = list_json(answer.lines, line_text);
    out["lines_codes"] = list_json(answer.lines, line_code);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const Explanation& answer, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, answer.head, words::title_explanation(holding_words(answer.holding)), style);
    table.blank();
    for (const auto& line : answer.lines) table.text(line.text, std::min(line.indent, deepest_indent), 4);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
