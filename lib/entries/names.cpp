#include "entries/names.hpp"

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

template <class E, std::size_t n>
E named(std::string_view name, const char* field, const char* const (&names)[n]) {
    for (std::size_t i = 0; i < n; ++i)
        if (name == names[i]) return E(i);
    throw Error(Code::bad_value,
                std::string(field) + ": " + text::quoted(name) + ": must be " + entries::names_of(names));
}

}  // namespace

std::string_view incident_step_name(IncidentStep step) noexcept {
    return entries::incident_steps[static_cast<int>(step)];
}

std::string_view duty_step_name(DutyStep step) noexcept { return entries::duty_steps[static_cast<int>(step)]; }

std::string_view recipient_name(Recipient to) noexcept { return entries::recipients[static_cast<int>(to)]; }

IncidentStep incident_step_of(std::string_view name) {
    return named<IncidentStep>(name, "step", entries::incident_steps);
}

Recipient recipient_of(std::string_view name) { return named<Recipient>(name, "to", entries::recipients); }

std::optional<IncidentStep> step_of(DutyStep duty) noexcept {
    switch (duty) {
    case DutyStep::supervisor_told: return IncidentStep::supervisor_told;
    case DutyStep::health_department_told: return IncidentStep::health_department_told;
    case DutyStep::manufacturer_told: return IncidentStep::manufacturer_told;
    case DutyStep::cause: return IncidentStep::cause;
    case DutyStep::action: return IncidentStep::action;
    case DutyStep::closed: return IncidentStep::closed;
    case DutyStep::answer: break;
    }
    return std::nullopt;
}

DutyStep told_duty(Recipient to) noexcept {
    switch (to) {
    case Recipient::health_department: return DutyStep::health_department_told;
    case Recipient::manufacturer: return DutyStep::manufacturer_told;
    case Recipient::supervisor: break;
    }
    return DutyStep::supervisor_told;
}

bool is_telling(IncidentStep step) noexcept {
    return step == IncidentStep::supervisor_told || step == IncidentStep::health_department_told ||
           step == IncidentStep::manufacturer_told;
}

}  // namespace coldtally
