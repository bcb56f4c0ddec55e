#include "incidents/given_in_doubt.hpp"

#include <map>

#include "conditions/incidents.hpp"
#include "incidents/incident_report.hpp"
#include "stock/given_doses.hpp"

namespace coldtally::answers {

namespace {

/// Doses that are clear and were given in the time in doubt of an open incident.
struct InDoubt {
    std::string incident;
    std::map<EntryNumber, Doses> given;
};

std::vector<InDoubt> given_in_doubt(World& w) {
    std::vector<InDoubt> out;
    for (const auto& span : open_incidents(w)) {
        InDoubt one{span.incident, {}};
        for (const auto& dose : incident(w, span.incident, std::nullopt).given)
            if (dose.finding == "clear") one.given.emplace(dose.entry, dose.doses);
        if (!one.given.empty()) out.push_back(std::move(one));
    }
    return out;
}

void say(const std::vector<InDoubt>& all, ReviewAnswer::Row& dose) {
    std::vector<std::string> said;
    for (const InDoubt& one : all)
        if (one.given.contains(dose.entry))
            said.push_back("IN DOUBT: incident " + one.incident +
                           " is open, and these doses stood in its time in doubt" +
                           (dose.guidance ? "; guidance of entry " + std::to_string(*dose.guidance) + " covers them"
                                          : ""));
    dose.beside.insert(dose.beside.begin(), said.begin(), said.end());
}

}  // namespace

void add_in_doubt(World& w, ReviewAnswer& answer, bool all) {
    const auto in_doubt = given_in_doubt(w);
    std::vector<std::string> lines;
    for (const InDoubt& one : in_doubt) {
        GivenDoses given;
        for (const auto& [entry, doses] : one.given) given.add(entry, doses.count());
        lines.push_back("IN DOUBT, " + unlisted(all) + given.words() + " that stood in the time in doubt of incident " +
                        one.incident + "; it is open, and its report lists them");
    }
    answer.not_listed.insert(answer.not_listed.begin(), lines.begin(), lines.end());
    for (auto& dose : answer.doses) say(in_doubt, dose);
}

void add_in_doubt(World& w, ImmunizationsAnswer& answer) {
    if (answer.doses.empty()) return;
    const auto in_doubt = given_in_doubt(w);
    for (auto& row : answer.doses) say(in_doubt, row.dose);
}

}  // namespace coldtally::answers
