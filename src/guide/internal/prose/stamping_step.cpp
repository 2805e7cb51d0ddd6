#include "guide/internal/prose/step_words.h"

#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

Size image_size(const Project& project, const Impression& impression) {
  if (impression.set < 0 || as_index(impression.set) >= project.stamp_sets.size()) return {};
  const auto& images = project.stamp_sets[as_index(impression.set)].images;
  if (impression.image < 0 || as_index(impression.image) >= images.size()) return {};
  return images[as_index(impression.image)].size;
}

// One impression and what the sentence around it needs.
struct Stamped {
  const StepContext& context;
  const Impression& impression;
  const std::vector<Impression>& all;
  std::size_t index = 0;
  std::string image;   // "the small tree"
  std::string it;      // "it" or "them"
  std::string inks;    // "moss and plum"
  std::string times;   // " three times", empty for one
  std::string where;   // " at left and right, 1 in from the top"
  const Prose& target; // empty where it has been said
  const Where& on;
  bool names_target() const { return !target.empty(); }
};

// The earlier impression of another image at the very same places.
const Impression* printed_over(const std::vector<Impression>& all, std::size_t index) {
  const Impression& one = all[index];
  if (one.places.empty()) return nullptr;
  for (std::size_t i = index; i-- > 0;)
    if (all[i].places == one.places && all[i].image != one.image) return &all[i];
  return nullptr;
}

std::string times_words(const Impression& impression) {
  const int n = prints(impression);
  return n == 1 ? std::string() : " " + words::times_words(n);
}

void say_target(Prose& prose, const Stamped& stamped, std::string_view before) {
  if (!stamped.names_target()) return;
  prose.say(before).append(stamped.target);
}

// The place in fewer and fewer words; what they leave out, the drawing shows.
std::vector<std::string> shorter_places(const std::string& where, bool drawn) {
  std::vector<std::string> out{where};
  if (!drawn || where.empty()) return out;
  const std::size_t apart = where.find(" apart,");
  if (apart != std::string::npos) {
    const std::size_t from = where.rfind(", ", apart);
    out.push_back(where.substr(0, from) + where.substr(apart + 6));
  }
  const std::size_t comma = where.find(", ", 2);
  if (comma != std::string::npos && !where.starts_with(",")) out.push_back(where.substr(0, comma));
  out.emplace_back(", as drawn");
  return out;
}

void say_act(Prose& prose, const Stamped& one, const std::string& act, const std::string& where) {
  Prose whole;
  whole.say(act);
  say_target(whole, one, " on ");
  Prose placed;
  for (const std::string& place : shorter_places(where, one.on.drawn)) {
    placed = whole;
    placed.say(place);
    if (words::count_of_words(spoken(placed.fragment())) <= longest_sentence) break;
  }
  prose.append(placed).say(".");
}

// "it" once the sentence before has named what is stamped on.
bool is_named(const Stamped& one) {
  const std::string target = spoken(one.target.fragment());
  return target == "it" || target == "them";
}

void say_plain(Prose& prose, const Stamped& one) {
  std::string act = "Stamp " + one.image;
  bool again = false;
  if (!one.names_target() && one.index > 0) {
    const Impression& before = one.all[one.index - 1];
    again = before.set == one.impression.set && before.image == one.impression.image;
    act = again ? "Stamp " + one.it + " again" : "Add " + one.image;
  }
  if (const Impression* under = printed_over(one.all, one.index)) {
    const std::string below = image_noun(one.context.project, under->set, under->image);
    return say_act(prose, one, act + " in " + one.inks,
                   (prints(*under) == 1 ? " over the " : " over each ") + below);
  }
  if (one.impression.fading && prints(one.impression) > 1) {
    prose.say("Ink " + one.image + " once with " + one.inks + ". ");
    act = "Without re-inking, stamp " + one.it + one.times;
    return say_act(prose, one, act, one.where);
  }
  if (one.names_target() && is_named(one) &&
      (one.where.starts_with(",") || one.where.starts_with(" at "))) {
    prose.say("Stamp " + spoken(one.target.fragment()) + " with " + one.image + one.times + " in " +
              one.inks + one.where + ".");
    return;
  }
  say_act(prose, one, act + one.times + " in " + one.inks, one.where);
}

void say_second_generation(Prose& prose, const Stamped& one) {
  if (prints(one.impression) > 1) {
    say_act(prose, one, "Stamp " + one.image + one.times + " in " + one.inks, one.where);
    prose.say(" Each time, stamp off once on scrap paper first.");
    return;
  }
  prose.say("Stamp off " + one.image + " once in " + one.inks + ". ");
  say_act(prose, one, "Without re-inking, stamp " + one.it, one.where);
}

void say_sponged(Prose& prose, const Stamped& one) {
  if (one.impression.image < 0) {
    say_act(prose, one, "With a sponge, dab " + one.inks + " lightly", one.where);
    return;
  }
  prose.say("Dab " + one.inks + " onto " + one.image + " with a sponge. ");
  say_act(prose, one, "Stamp " + one.it + one.times, one.where);
}

void say_masked(Prose& prose, const Stamped& one) {
  const std::string act = "Stamp " + one.image + one.times + " in " + one.inks;
  if (one.index == 0) {
    prose.say("Cover what must stay clear with a scrap paper mask. ");
    say_act(prose, one, act, one.where);
    prose.say(" Lift the mask.");
    return;
  }
  const Impression& before = one.all[one.index - 1];
  const std::string covered = image_with_the(one.context.project, before.set, before.image);
  prose.say("Cover " + covered + " with a mask: stamp it on scrap paper and cut it out. ");
  say_act(prose, one, act + " across the edge of the mask", one.where);
  prose.say(" Lift the mask.");
}

void say_heat_embossed(Prose& prose, const Stamped& one) {
  const Project& project = one.context.project;
  say_plain(prose, one);
  const std::string own_powder = tool_with_the(project, Work::Powder);
  const std::string powder =
      own_powder.empty() ? "embossing powder" : std::string(words::without_article(own_powder));
  std::string heat = tool_with_the(project, Work::Heat);
  if (heat.empty()) heat = "a heat tool";
  prose.say(" While the ink is wet, cover it with " + powder +
            ". Tap off what is loose and melt the rest with " + heat + " until it shines.");
}

void say_one(Prose& prose, const Stamped& one) {
  switch (one.impression.method) {
  case Impression::Method::Plain: return say_plain(prose, one);
  case Impression::Method::SecondGeneration: return say_second_generation(prose, one);
  case Impression::Method::Sponged: return say_sponged(prose, one);
  case Impression::Method::Masked: return say_masked(prose, one);
  case Impression::Method::HeatEmbossed: return say_heat_embossed(prose, one);
  }
}

} // namespace

int prints(const Impression& impression) {
  return std::max({1, impression.times, static_cast<int>(impression.places.size())});
}

void say_stamping(Prose& prose, const StepContext& context, const Carrier& on,
                  const std::vector<Impression>& stamped, const Prose& target, bool several) {
  for (std::size_t i = 0; i < stamped.size(); ++i)
    say_impression(prose, context, on, stamped, i, i == 0 ? target : Prose{}, several);
}

void say_impression(Prose& prose, const StepContext& context, const Carrier& on,
                    const std::vector<Impression>& stamped, std::size_t index, const Prose& target,
                    bool several) {
  const Where where{context.project, context.card, on, context.drawn};
  const Impression& impression = stamped.at(index);
  const bool plural =
      words::is_plural(image_noun(context.project, impression.set, impression.image));
  Stamped one{context,
              impression,
              stamped,
              index,
              image_with_the(context.project, impression.set, impression.image),
              plural ? "them" : "it",
              ink_nouns(context.project, impression.inks),
              times_words(impression),
              arranged_words(where, impression.places, image_size(context.project, impression),
                             impression.rotation, impression.position) +
                  turned_words(impression.rotation),
              target,
              where};
  if (several && prints(impression) > 1)
    one.times += " on each";
  else if (tells_how_many(impression.places))
    one.times.clear();
  prose.next();
  say_one(prose, one);
}

std::vector<Notice> stamping_cautions(const StepContext& context,
                                      const std::vector<Impression>& stamped) {
  const bool hot = std::any_of(stamped.begin(), stamped.end(), [](const Impression& one) {
    return one.method == Impression::Method::HeatEmbossed;
  });
  if (!hot) return {};
  std::string tool = tool_with_the(context.project, Work::Heat);
  if (tool.empty()) tool = "the heat tool";
  return {Notice{Notice::Kind::Caution, "Hot air.",
                 plain("Hold the card with tongs. Keep fingers, ribbon and paper away from " +
                       tool + ". Let the image cool before you touch it.")}};
}

} // namespace leafwright::guide
