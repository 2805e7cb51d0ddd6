#include "plan/cut/json.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;

TEST_CASE("job and plan are told as JSON") {
  Job job;
  job.sheets.push_back({"sheet \"A\"", 100, 80, 5, {}, true});
  job.pieces.push_back({"p\n1", 100, 50, 2, false});
  Plan result = plan(job);
  result.statistics.seconds = 0.25;
  const std::string json = to_json(job, result);
  CHECK(json == R"({
  "sheets": 2,
  "cost": 10,
  "bound_cost": 10,
  "bound_sheets": 2,
  "proven": true,
  "words": "2 sheets; no straight-cut plan can use fewer than 2",
  "stopped_by": "nothing",
  "seconds": 0.250,
  "findings": [],
  "patterns": [
    {
      "count": 2,
      "sheet": "sheet \"A\"",
      "width": 100,
      "height": 80,
      "pieces": [
        {"id": "p\n1", "x": 0, "y": 0, "width": 100, "height": 50, "turned": false}
      ],
      "leftovers": [
        {"x": 0, "y": 50, "width": 100, "height": 30}
      ]
    }
  ]
}
)");
}

TEST_CASE("findings are told with their kind") {
  Job job;
  job.pieces.push_back({"p", 1, 1, 1, true});
  const std::string json = to_json(job, plan(job));
  CHECK(json.find("\"piece-fits-no-sheet\"") != std::string::npos);
  CHECK(json.find("\"patterns\": []") != std::string::npos);
}
