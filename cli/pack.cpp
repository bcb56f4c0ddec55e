#include "everyday.hpp"

namespace coldtally::cli {

namespace {

struct Options : WorkOptions {
    PackRequest request;
    std::string unsuited;
};

int pack(const Options& options, const Surroundings& surroundings) {
    PackRequest request = options.request;
    request.by = options.by;
    request.at = options.at;
    request.note = options.note;
    request.take_unsuited = options.unsuited == "take";
    request.leave_unsuited = options.unsuited == "leave";
    Ledger ledger(options.ledger, Ledger::Mode::write);
    return say(Work(ledger, surroundings.now).pack(request, meant(options)), options, ledger, surroundings);
}

}  // namespace

void add_pack(CLI::App& program, Run& run) {
    const auto options = std::make_shared<Options>();
    PackRequest& request = options->request;
    CLI::App* command = add_work(
        program, run, "pack", "Moves all of a place, or chosen lots, into a container, and prints the list for its lid",
        pack, options,
        "coldtally pack main box 'annex refrigerator' --temp 11.5C --container-temp 4.1C --unsuited leave");
    command->add_option("PLACE", request.place, "the place that is emptied")->required();
    command->add_option("CONTAINER", request.container, "the container")->required();
    command->add_option("DESTINATION", request.destination, "where it goes")->required();
    command->add_option("--lot", request.lots, "a lot to take; not given: all");
    command->add_option("--reason", request.reason, "emergency, relocation, 'avoid waste' or 'off-site clinic'")
        ->capture_default_str();
    command->add_option("--temp", request.place_temperature, "of the place when it is emptied: 11.5C, 52.7F");
    command->add_option("--container-temp", request.container_temperature, "of the container at departure");
    command->add_option("--packed-by", request.packed_by, "who packed; not given: --by");
    command->add_option("--approval", request.approval, "who approved it, where that is asked for");
    command->add_option("--coolant", request.coolant, "what cools it");
    command->add_option("--conditioning", request.conditioning, "how the coolant was prepared");
    command
        ->add_option("--unsuited", options->unsuited,
                     "doses that the container does not suit: take or leave; not given: refused if there are any")
        ->check(CLI::IsMember({"take", "leave"}));
    add_yes_option(*command, *options);
}

}  // namespace coldtally::cli
