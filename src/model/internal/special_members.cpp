#include "model/project.h"

// What makes, copies, moves and lets go of the largest values, compiled here alone. Written out in
// every file that uses them they took a tenth of a build.

namespace leafwright {

Piece::Piece() = default;
Piece::Piece(const Piece&) = default;
Piece::Piece(Piece&&) noexcept = default;
Piece& Piece::operator=(const Piece&) = default;
Piece& Piece::operator=(Piece&&) noexcept = default;
Piece::~Piece() = default;

Card::Card() = default;
Card::Card(const Card&) = default;
Card::Card(Card&&) noexcept = default;
Card& Card::operator=(const Card&) = default;
Card& Card::operator=(Card&&) noexcept = default;
Card::~Card() = default;

Tier::Tier() = default;
Tier::Tier(const Tier&) = default;
Tier::Tier(Tier&&) noexcept = default;
Tier& Tier::operator=(const Tier&) = default;
Tier& Tier::operator=(Tier&&) noexcept = default;
Tier::~Tier() = default;

Run::Run() = default;
Run::Run(const Run&) = default;
Run::Run(Run&&) noexcept = default;
Run& Run::operator=(const Run&) = default;
Run& Run::operator=(Run&&) noexcept = default;
Run::~Run() = default;

Project::Project() = default;
Project::Project(const Project&) = default;
Project::Project(Project&&) noexcept = default;
Project& Project::operator=(const Project&) = default;
Project& Project::operator=(Project&&) noexcept = default;
Project::~Project() = default;

} // namespace leafwright
