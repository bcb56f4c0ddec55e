#include "incidents/given_in_doubt.hpp"

#include "conditions/incidents.hpp"
#include "incidents/incident_report.hpp"
#include "stock/given_doses.hpp"

namespace coldtally::answers {

void add_in_doubt(World& w, ReviewAnswer& answer, bool all) {
    std::vector<std::string> lines;
    for (const auto& span : open_incidents(w)) {
        GivenDoses given;
        for (const auto& dose : incident(w, span.incident, std::nullopt).given)
            if (dose.finding == "clear") given.add(dose.entry, dose.doses.count());
        if (given.any())
            lines.push_back("IN DOUBT, " + unlisted(all) + given.words() +
                            " that stood in the time in doubt of incident " + span.incident +
                            "; it is open, and its report lists them");
    }
    answer.not_listed.insert(answer.not_listed.begin(), lines.begin(), lines.end());
}

}  // namespace coldtally::answers
