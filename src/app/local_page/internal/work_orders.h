#pragma once

#include "app/documents/documents.h"
#include "app/local_page/internal/answers.h"
#include "app/local_page/internal/work_process.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// What is done in processes of their own: documents, and what takes the plan of the whole batch.
// Orders and messages are JSON; a message begins with a letter that says what it is.

namespace leafwright::local_page {

struct DocumentOrder {
  std::string path, bytes; // of the project
  std::vector<std::string> names;
  std::string tier, paper;
  bool grey = false;
};
std::string order_words(const DocumentOrder& order);
// The facts that take long, and findings about dates, orders and tiers.
std::string fact_order_words(const std::string& path, const std::string& bytes);

// In the work's own process, whose `settings` are changed to what is ordered.
void do_order(const std::string& order, const WorkProcess::Tell& tell,
              app::RenderSettings& settings);

// A message, taken apart.
struct WorkMessage {
  enum class What { Progress, File, Facts, Error, Nothing };
  What what = What::Nothing;
  std::int64_t done = 0, of = 0;
  std::string words;    // Progress, Error
  app::OutputFile file; // File
  std::vector<FactRow> facts;
  Findings findings;
};
WorkMessage message_of(std::string_view message);

} // namespace leafwright::local_page
