#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    UnpackRequest request;
    std::vector<std::string> counts;
};

int unpack(const Options& options, const Surroundings& surroundings) {
    UnpackRequest request = options.request;
    request.by = options.by;
    request.at = options.at;
    request.note = options.note;
    for (const auto& count : options.counts) {
        const std::size_t equals = count.rfind('=');
        if (equals == std::string::npos)
            throw Error(Code::bad_value, "--count: \"" + count + "\" is not of the form LOT=DOSES");
        request.counts.emplace_back(count.substr(0, equals), read_doses("--count", count.substr(equals + 1)));
    }
    Ledger ledger(options.ledger, Ledger::Mode::write);
    return say(Work(ledger, surroundings.now).unpack(request, meant(options)), options, ledger, surroundings);
}

}  // namespace

void add_unpack(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    UnpackRequest& request = options->request;
    CLI::App* command =
        add_work(program, run, "unpack", "Counts what is in a container and moves it into a place", unpack, options,
                 "coldtally unpack box annex --count K0123=9 --as-listed --container-temp 5.2C --temp 4.4C");
    command->add_option("CONTAINER", request.container, "the container")->required();
    command->add_option("PLACE", request.place, "the place it is unpacked into")->required();
    command->add_option("--count", options->counts,
                        "LOT=DOSES as counted; where a lot is there more than once, LOT,FUND,MARK=DOSES");
    command->add_flag("--as-listed", request.as_listed, "the lots without --count were counted and are as in the book");
    command->add_option(
        "--mark", request.mark,
        "the mark they get; '': none; not given: their own, or one of the trip where they must be kept apart");
    command->add_option("--container-temp", request.container_temperature, "of the container at arrival: 5.2C, 41.4F");
    command->add_option("--temp", request.place_temperature, "of the place they go into");
    command->add_option("--received-by", request.received_by, "who received; not given: --by");
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
