// Incident form: the parts of an incident's report, each with its JSON and its section of the table.
#pragma once

#include "coldtally/incidents.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally::forms {

/// A blank line and the heading.
void add_heading(TableLayout& table, const Remark& heading);

Json duty_json(const DutyClock& duty);

// incident_screen_form.cpp
void add_in_short(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);
/// What is to be done by when; what is done as a number.
void add_duties(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);

// incident_doses_form.cpp
Json given_json(const ReviewAnswer::Row& row);
Json left_json(const Departure& left);
Json now_json(const ListsAnswer::Row& row);
void add_given(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);
void add_left(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);
void add_now(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);

// incident_units_form.cpp
Json unit_json(const IncidentAnswer::Unit& unit);
/// "lowest 2.1 °C, highest 12.6 °C", of an exposure that has them.
Remark extremes_words(const Exposure& exposure, Scale scale);
void add_units(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);
void add_conditions(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);

// incident_vaccine_form.cpp; the columns are those of the whole table
std::vector<TableLayout::Column> vaccine_columns();
Json line_json(const IncidentAnswer::Line& line);
Json held_json(const IncidentAnswer::Held& held);
void add_vaccine(TableLayout& table, const IncidentAnswer& answer);
void add_holds(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);

// incident_makers_form.cpp
Json asked_json(const IncidentAnswer::Asked& asked);
Json sent_json(const IncidentAnswer::Sent& sent);
void add_makers(TableLayout& table, const IncidentAnswer& answer);
void add_reports(TableLayout& table, const IncidentAnswer& answer, const TableStyle& style);

// incident_figures_form.cpp
Json told_json(const IncidentAnswer::ToTell& told);
void add_figures(TableLayout& table, const IncidentAnswer& answer);

}  // namespace coldtally::forms
