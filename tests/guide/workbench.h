#pragma once

#include "guide/prose.h"
#include "model/project.h"

#include <string>

// A small project to tell things about: kraft, cream and moss card, dotted paper, one stamp set,
// four adhesives, a tool box and an A2 envelope. Its names are our own.

namespace workbench {

enum StockIndex { kraft, cream, moss_card, dots };
enum InkIndex { moss, rust, plum };
enum ImageIndex { tree, palings, greeting, fruit };
enum AdhesiveIndex { tape, foam, glue_dots, glue, sheet };
enum RibbonIndex { grosgrain, twine };

leafwright::Project project();

// Adds a card of 4 1/4 x 5 1/2 in (or `finished`) with its base of kraft, lettered A; returns its
// index.
int add_card(leafwright::Project& project, leafwright::Form::Kind form,
             leafwright::Size finished = {leafwright::inches(4, 1, 4), leafwright::inches(5, 1, 2)},
             int leaves = 0);

int face(const leafwright::Card& card, const std::string& id);
leafwright::Carrier on_face(const leafwright::Card& card, const std::string& id);
inline leafwright::Carrier on_piece(int index) { return {leafwright::Carrier::Kind::Piece, index}; }

// Adds a panel, taped, at `at` from the carrier's corner; the letter follows the last one.
int add_panel(leafwright::Card& card, const std::string& name, int stock, leafwright::Carrier on,
              leafwright::Size size, leafwright::Point at);
// A panel with the same reveal on all sides of a face.
int add_mat(leafwright::Project& project, leafwright::Card& card, const std::string& name,
            int stock, const std::string& face_id, leafwright::Length reveal);

leafwright::Impression impression(int image, std::vector<int> inks,
                                  std::vector<leafwright::Point> places);

} // namespace workbench
