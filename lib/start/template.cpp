// Template: a file to fill in, made of the list of tables that reads it.
#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "start/tables.hpp"
#include "text/json_text.hpp"
#include "words/general.hpp"
#include "words/start.hpp"

namespace coldtally {

namespace {

using namespace start;

constexpr StartTemplate all[] = {StartTemplate::clinic, StartTemplate::lots, StartTemplate::plan, StartTemplate::rules};

/// In quotation marks where it must be.
std::string cell(std::string_view text) {
    if (text.find_first_of(",\"") == text.npos) return std::string(text);
    std::string out = "\"";
    for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
    return out + "\"";
}

class Template {
public:
    explicit Template(const Phrasebook& book) : book_(book) {}

    /// A line that a spreadsheet shows in one cell.
    void comment(const Remark& text) { out_ += cell("# " + book_.say(text)) + "\n"; }
    void blank() { out_ += "\n"; }

    void table(const Table& t) {
        blank();
        comment(words::template_table(t.name, t.says));
        if (t.parts) {
            comment(words::template_parts());
            out_ += "[" + std::string(t.name) + "]\n";
            for (const Column& c : t.columns) {
                explain(c);
                if (!c.example.empty()) out_ += "# " + std::string(c.name) + "," + cell(c.example) + "\n";
                out_ += std::string(c.name) + ",\n";
            }
            return;
        }
        for (const Column& c : t.columns) explain(c);
        out_ += "[" + std::string(t.name) + "]\n";
        std::string names, example = "# ";
        for (const Column& c : t.columns) {
            names += (names.empty() ? "" : ",") + cell(c.name);
            example += (&c == t.columns.data() ? "" : ",") + cell(c.example);
        }
        out_ += names + "\n" + example + "\n";
    }

    std::string text() { return std::move(out_); }

private:
    void explain(const Column& c) {
        comment((c.needed ? words::template_needed : words::template_column)(c.name, c.says));
    }
    const Phrasebook& book_;
    std::string out_;
};

}  // namespace

std::string_view start_template_name(StartTemplate which) noexcept {
    switch (which) {
        case StartTemplate::clinic: return "clinic";
        case StartTemplate::lots: return "lots";
        case StartTemplate::plan: return "plan";
        case StartTemplate::rules: break;
    }
    return "rules";
}

StartTemplate start_template_of(std::string_view name) {
    std::vector<std::string> names;
    for (const auto which : all) {
        if (start_template_name(which) == name) return which;
        names.emplace_back(start_template_name(which));
    }
    throw Error(Code::bad_value, "what: " + text::quoted(std::string(name)) +
                                     ": must be clinic, lots, plan or rules" + did_you_mean(nearest(name, names)));
}

std::string start_template(StartTemplate which, const Phrasebook& book) {
    Template out(book);
    const std::string file = std::string(start_template_name(which)) + ".csv";
    out.comment(words::template_begins(words::task("start", {{"", file}})));
    out.comment(words::template_comments());
    out.comment(words::template_dry());
    out.comment(words::template_units());
    out.comment(words::template_example());
    for (const Table* table : tables_of(which)) out.table(*table);
    return out.text();
}

}  // namespace coldtally
