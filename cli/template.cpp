#include <memory>
#include <optional>

#include "coldtally/start.hpp"
#include "files.hpp"
#include "options.hpp"

namespace coldtally::cli {

namespace {

struct Options {
    std::string what;
    std::optional<std::string> file;
};

constexpr const char* example = "coldtally template clinic clinic.csv";

int make_template(const Options& options, const Surroundings& surroundings) {
    const std::string text = start_template(start_template_of(options.what), surroundings.book);
    if (options.file)
        write_new_file(*options.file, text);
    else
        surroundings.out.write(text);
    return done;
}

}  // namespace

void add_template(CLI::App& program, Run& run) {
    CLI::App* command =
        program.add_subcommand("template", "Writes a file to fill in, with every line explained, for coldtally start");
    const auto options = std::make_shared<Options>();
    command->add_option("WHAT", options->what,
                        "clinic (all that a new ledger begins with), lots (opening stock), plan (the contingency plan) "
                        "or rules (what the programme asks)")
        ->required();
    command->add_option("FILE", options->file, "a new file; not given: it is printed");
    command->footer(folded("The file is text with commas, which a spreadsheet opens and saves as CSV (UTF-8). Lines "
                           "that begin with a number sign and a blank are comments.") +
                    "\n\n" + help_end(example));
    command->callback([options, &run] {
        run = [options](const Surroundings& surroundings) { return make_template(*options, surroundings); };
    });
}

}  // namespace coldtally::cli
