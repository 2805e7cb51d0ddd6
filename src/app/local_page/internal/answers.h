#pragma once

#include "app/local_page/internal/edit_session.h"
#include "app/local_page/internal/shown_project.h"
#include "basics/reuse.h"
#include "records/records.h"

#include <string>
#include <vector>

// Parts of the answers to a page, as JSON. The caller has opened what they stand in.

namespace leafwright::local_page {

using records::Json;

void write_number(Json& json, double value); // three decimals
void write_mm(Json& json, Length length);
std::string plain_blanks(std::string words); // without the no-break ones of print

// The whole tree of the file.
void write_elements(Json& json, const Shown& shown);
// What may stand where, from the vocabulary of the reader.
void write_tags(Json& json);
// The steps of a card, as long as nothing that they are made from changes: to tell them, each of
// its pictures is made.
struct StepRow {
  std::string key, title, words;
};
using StepCache = AgeingCache<std::string, std::vector<StepRow>>;
// `shown` is the last state that could be read.
void write_cards(Json& json, const Shown& shown, StepCache& steps);
// `more` come later than the rest.
void write_findings(Json& json, const Shown& shown, const Findings& more = {});
void write_written(Json& json, const std::vector<edit::Written>& written);

// What a change moves, as far as it is known at once.
struct FactRow {
  std::string id, label, value;
  double amount = 0;
  int harm = 0; // 1: more is worse, -1: more is better
};
std::vector<FactRow> quick_facts(const Shown& shown);
void write_facts(Json& json, const std::vector<FactRow>& facts);
// Old and new of facts and of the sizes and places of things.
void write_follows(Json& json, const Shown& before, const Shown& after);

// The object that contract calls Project. `last_readable` may be the same as `shown`.
struct ProjectAnswer {
  const Shown& shown;
  const Shown& last_readable;
  const Session& session;
  StepCache& steps;
  std::string file;
  std::vector<FactRow> slow_facts;
  Findings slow_findings;
  bool with_tags = false;
  bool kept = true;
};
void write_project(Json& json, const ProjectAnswer& answer);

} // namespace leafwright::local_page
