#include <memory>
#include <optional>

#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string ledger;
    std::optional<std::string> against;
    FormOptions form;
};

int verify(const Options& options, const Surroundings& surroundings) {
    Verification found;
    std::optional<NotedLink> noted;
    if (options.against) noted = parse_noted_link(*options.against);
    try {
        found = Ledger(options.ledger).verify(noted);
    } catch (const Error& error) {
        // Damage that keeps the file from being read at all is an answer too, and the answer is no.
        if (error.code() != Code::damaged) throw;
        found = not_readable(error);
    }
    if (options.form.format == "json") {
        surroundings.out.write(to_json(found));
    } else {
        // nothing here is shown in a zone, and a damaged ledger may not know its own
        TableStyle style{.zone = Zone("UTC"), .columns = surroundings.columns, .book = &surroundings.book};
        style.color = options.form.color == "always" || (options.form.color == "auto" && surroundings.color);
        surroundings.out.write(to_table(found, style));
    }
    return found.findings.empty() ? done : answer_is_no;
}

}  // namespace

void add_verify(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("verify", "Recomputes the ledger from its entries and says what does not agree");
    const auto options = std::make_shared<Options>();
    add_ledger(*command, options->ledger);
    command->add_option(
        "--against", options->against,
        "what an earlier verify said to write down on paper (931:3f2a9c01d2e4b5a6): the chain must still have it");
    add_form_options(*command, options->form);
    command->footer(help_end("coldtally verify clinic.ledger", "something does not agree, or the file is damaged"));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return verify(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
