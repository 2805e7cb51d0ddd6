#include "guide/internal/prose/step_words.h"

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
  std::string where;   // ", in a row, 1 in below the top edge"
  const Prose& target; // said once, with the first of all
  bool first() const { return index == 0; }
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
  if (!stamped.first()) return;
  prose.say(before).append(stamped.target);
}

std::string fading_words(const Impression& impression) {
  if (!impression.fading || prints(impression) < 2) return {};
  return prints(impression) == 2
             ? ", inking it only before the first: the second print comes out paler"
             : ", inking it only before the first: each print is paler than the one before";
}

void say_plain(Prose& prose, const Stamped& one) {
  if (one.first()) {
    prose.say("On ").append(one.target).say(", stamp " + one.image);
  } else {
    const Impression& before = one.all[one.index - 1];
    const bool again = before.set == one.impression.set && before.image == one.impression.image;
    prose.say(again ? "Stamp " + one.it + " again" : "Add " + one.image);
  }
  if (const Impression* under = printed_over(one.all, one.index)) {
    const std::string below = image_noun(one.context.project, under->set, under->image);
    prose.say(" in " + one.inks + (prints(*under) == 1 ? " over the " : " over each ") + below);
  } else {
    prose.say(one.times + " in " + one.inks + one.where);
  }
  prose.say(fading_words(one.impression) + ".");
}

void say_second_generation(Prose& prose, const Stamped& one) {
  if (prints(one.impression) > 1) {
    prose.say("Stamp " + one.image + one.times + " in " + one.inks);
    say_target(prose, one, " on ");
    prose.say(one.where + ", each time after a first print on scrap paper: the second is paler.");
    return;
  }
  prose.say("Ink " + one.image + " with " + one.inks + " and press " + one.it +
            " once on scrap paper; then, without inking again, stamp " + one.it);
  say_target(prose, one, " on ");
  prose.say(one.where + ": the print comes out paler.");
}

void say_sponged(Prose& prose, const Stamped& one) {
  if (one.impression.image < 0) {
    prose.say("Dab " + one.inks + " lightly");
    say_target(prose, one, " onto ");
    prose.say(" with a sponge" + one.where + ".");
    return;
  }
  prose.say("Dab " + one.inks + " onto " + one.image + " with a sponge and stamp " + one.it +
            one.times);
  say_target(prose, one, " on ");
  prose.say(one.where + ": the colour comes out soft.");
}

void say_masked(Prose& prose, const Stamped& one) {
  if (one.first()) {
    prose.say("Cover what must stay clear with a mask of scrap paper and stamp " + one.image +
              one.times + " in " + one.inks);
    say_target(prose, one, " on ");
    prose.say(one.where + "; then lift the mask.");
    return;
  }
  const Impression& before = one.all[one.index - 1];
  const std::string covered = image_with_the(one.context.project, before.set, before.image);
  prose.say("Stamp " + covered +
            " once more on scrap paper, cut it out and lay it over the print as a mask. "
            "Stamp " +
            one.image + one.times + " in " + one.inks + one.where +
            ", across the edge of the mask, and lift it: " + one.image + " now " +
            (words::is_plural(one.image) ? "stand" : "stands") + " behind " + covered + ".");
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
            ", tap off what is loose and warm the rest with " + heat +
            " until it melts and shines.");
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
  const Where where{context.project, context.card, on, false, context.drawn};
  for (std::size_t i = 0; i < stamped.size(); ++i) {
    const Impression& impression = stamped[i];
    Stamped one{context,
                impression,
                stamped,
                i,
                image_with_the(context.project, impression.set, impression.image),
                words::is_plural(image_noun(context.project, impression.set, impression.image))
                    ? "them"
                    : "it",
                ink_nouns(context.project, impression.inks),
                times_words(impression),
                arranged_words(where, impression.places, image_size(context.project, impression),
                               impression.rotation, impression.position) +
                    turned_words(impression.rotation),
                target};
    if (several && prints(impression) > 1) one.times += " on each";
    prose.next();
    say_one(prose, one);
  }
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
                 plain("Hold the card with tongs and keep fingers, ribbon and paper away from " +
                       tool + "; let the print cool before you touch it.")}};
}

} // namespace leafwright::guide
