#include "everyday.hpp"
#include "files.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    std::string file;
};

constexpr const char* example = "coldtally start clinic.csv --ledger clinic.ledger --by RS --dry-run";

int start(const Options& options, const Surroundings& surroundings) {
    StartRequest request{file_name(options.file), read_file(options.file), options.by, options.at};
    Ledger ledger(options.ledger, Ledger::Mode::create);
    const StartDone done = Work(ledger, surroundings.now).start(request, meant(options));
    if (options.form.format == "json") {
        surroundings.out.write(to_json(done));
    } else {
        TableStyle style{.zone = Zone(done.draft.zone.empty() ? "UTC" : done.draft.zone), .book = &surroundings.book};
        style.color = options.form.color == "always" || (options.form.color == "auto" && surroundings.color);
        surroundings.out.write(to_table(done, style));
    }
    surroundings.out.flush();
    require_taken(done, false);
    return cli::done;
}

}  // namespace

void add_start(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        add_work(program, run, "start",
                 "Takes in a file in which a clinic describes itself: begins a ledger, or adds to one", start, options,
                 example);
    command->remove_option(command->get_option("--note"));  // a note is of one row, and has a column
    command->add_option("FILE", options->file, "the filled-in file; -: standard input")->required();
    add_yes_option(*command, *options);
    command->footer(
        folded(
            "Make the file with coldtally template, fill it in, and look at it with --dry-run: that shows what was "
            "understood, all mistakes with their lines, what is doubtful, and what is still missing. Without "
            "--dry-run all of it is written, or nothing. A file of one table needs no title over it: the names of its "
            "columns are enough, so that opening stock is a spreadsheet with lot, doses, product, expiry, place and "
            "fund. Cells are parted by commas, semicolons or tabs; the text is UTF-8 or UTF-16. Of a ledger that is "
            "there definitions change what they state, and stock is added; stock of doses that are there already needs "
            "--yes.") +
        "\n\n" + help_end(example));
}

}  // namespace coldtally::cli
