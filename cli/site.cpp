#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : DefinitionOptions {
    std::optional<std::string> name, zone, unmonitored_limit, stale_after;
};

int site(const Options& options, const Surroundings& surroundings) {
    Fields fields = fields_of("site", options);
    put(fields, "name", options.name);
    put(fields, "zone", options.zone);
    if (options.unmonitored_limit)
        fields["unmonitored_limit_s"] = read_duration("--unmonitored-limit", *options.unmonitored_limit);
    if (options.stale_after)
        fields["stale_after_s"] = read_duration("--stale-after", *options.stale_after);
    return post_definition(options, std::move(fields), surroundings);
}

}  // namespace

void add_site(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = add_work(program, run, "site", "Begins a ledger, or corrects what it says of the site", site,
                                 options, "coldtally site 'Harbour Street' Europe/Zurich");
    command->add_option("NAME", options->name,
                        "the site's name; may be left out, as its zone, where the ledger is there");
    command->add_option("ZONE", options->zone, "its IANA time zone, such as Europe/Zurich");
    command->add_option("--unmonitored-limit", options->unmonitored_limit,
                        "time without known temperature that does not yet mean quarantine: '30 min'");
    command->add_option("--stale-after", options->stale_after,
                        "time after which data that have not come count as not known: '24 h'");
    add_definition_options(*command, *options, "unmonitored-limit, stale-after");
}

}  // namespace coldtally::cli
