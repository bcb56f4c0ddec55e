#include "options.hpp"

namespace coldtally::cli {

namespace {
constexpr std::string_view example_begins = "Example:\n  ";
}

std::string folded(const std::string& text, std::size_t columns) {
    std::string out;
    std::size_t from = 0;
    while (text.size() - from > columns) {
        const std::size_t blank = text.rfind(' ', from + columns);
        if (blank == std::string::npos || blank <= from) break;
        out += text.substr(from, blank - from) + "\n";
        from = blank + 1;
    }
    return out + text.substr(from);
}

std::string help_end(const std::string& example, const std::string& no) {
    return std::string(example_begins) + example + "\n\nExit status:\n  0  done\n" +
           (no.empty() ? "" : "  1  the answer is no: " + no + "\n") +
           "  2  refused, nothing written: one line on standard error says why\n"
           "  3  the machine failed (disk, file, lock)";
}

std::string example_of(const CLI::App& command) {
    const std::string footer = command.get_footer();
    const std::size_t begins = footer.find(example_begins);
    if (begins == std::string::npos) return {};
    const std::size_t from = begins + example_begins.size();
    return footer.substr(from, footer.find("\n\n", from) - from);
}

std::string question_help_end(const std::string& example, const std::string& no) {
    return folded(
               "An instant is local time of the site (08:05 today, '2026-03-02 08:05', 2026-03-02T08:05:00), or has a "
               "Z or an offset (2026-03-02T08:05:00-06:00). "
               "--known-on is read in the zone the site is in now, the others in the zone known on that instant.") +
           "\n\n" + help_end(example, no);
}

void add_ledger(CLI::App& command, std::string& ledger, const std::string& says, const char* word) {
    command.add_option(word, ledger, says + "; left out where --ledger or COLDTALLY_LEDGER names it")->required();
    command.add_option("--ledger", ledger,
                       std::string("the same, in place of ") + word + "; goes before COLDTALLY_LEDGER");
}

void add_form_options(CLI::App& command, FormOptions& options) {
    command.add_option("--format", options.format, "table, or json in one line")
        ->check(CLI::IsMember({"table", "json"}))
        ->capture_default_str();
    command.add_option("--color", options.color, "colours in tables; auto: on a terminal, where NO_COLOR is not set")
        ->check(CLI::IsMember({"auto", "always", "never"}))
        ->capture_default_str();
}

void add_question_options(CLI::App& command, QuestionOptions& options, const char* ledger) {
    add_ledger(command, options.ledger, ledger);
    add_instant_options(command, options);
    add_form_options(command, options.form);
}

void add_instant_options(CLI::App& command, QuestionOptions& options) {
    command.add_option("--at", options.at,
                       "the instant asked about: 08:05 (today), '2026-03-02 08:05'; not given: now");
    command.add_option("--known-on", options.known_on, "only entries recorded up to this instant; not given: all");
}

namespace {

template <class Typed>
Instant read(const std::string& option, Typed typed) {
    try {
        return typed();
    } catch (const Error& error) {
        throw Error(error.code(), option + ": " + error.what());
    }
}

}  // namespace

Instant read_instant(const std::string& option, const std::string& text, const Zone& zone, Instant now) {
    return read(option, [&] { return typed_instant(text, zone, now); });
}

Instant read_from(const std::string& text, const Zone& zone, Instant now) {
    return read("--from", [&] { return typed_from(text, zone, now); });
}

Instant read_until(const std::string& text, const Zone& zone, Instant now, std::optional<Instant> from) {
    return read("--until", [&] { return typed_until(text, zone, now, from); });
}

Viewed view_of(const Ledger& ledger, const QuestionOptions& options, Instant now) {
    // each is made while the one before stands, and so in its transaction
    Viewed out{{}, ledger.as_of({}, now)};
    if (options.known_on) {
        out.question.known_on = read_instant("--known-on", *options.known_on, out.view.zone(), now);
        out.view = ledger.as_of(out.question, now);
    }
    if (options.at) {
        out.question.at = read_instant("--at", *options.at, out.view.zone(), now);
        out.view = ledger.as_of(out.question, now);
    }
    return out;
}

// "4h", "30 min"
static bool is_time(const std::string& text) {
    const auto unit = text.find_first_not_of("0123456789 ");
    return unit != std::string::npos && unit > 0 && std::string("smhd").find(text[unit]) != std::string::npos;
}

std::int64_t read_duration(const std::string& option, const std::string& text) {
    try {
        return typed_duration(text).seconds();
    } catch (const Error& error) {
        throw Error(error.code(), option + ": " + error.what());
    }
}

std::int64_t read_whole(const std::string& option, const std::string& text, std::int64_t most) {
    std::int64_t value = 0;
    bool good = !text.empty() && (text == "0" || text[0] != '0');
    for (const char c : text) {
        good = good && c >= '0' && c <= '9';
        if (!good) break;
        value = value * 10 + (c - '0');
        good = value <= most;
    }
    if (!good)
        throw Error(Code::bad_value, option + ": \"" + text + "\" is not a whole number from 0 to " +
                                         std::to_string(most) +
                                         (is_time(text) ? "; a time is stated in seconds, 1 hour as 3600" : ""));
    return value;
}

static TableStyle style_of(const FormOptions& options, const Zone& zone, Scale scale,
                           const Surroundings& surroundings) {
    TableStyle style{.zone = zone, .scale = scale, .columns = surroundings.columns, .book = &surroundings.book};
    style.color = options.color == "always" || (options.color == "auto" && surroundings.color);
    return style;
}

TableStyle table_style(const FormOptions& options, const Ledger& ledger, const Zone& zone,
                       const Surroundings& surroundings) {
    return style_of(options, zone, ledger.sheet_scale(), surroundings);
}

TableStyle table_style(const FormOptions& options, const View& view, const Surroundings& surroundings) {
    return style_of(options, view.zone(), view.sheet_scale(), surroundings);
}

}  // namespace coldtally::cli
