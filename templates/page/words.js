// The page's words for the project file's names, in plain speech, American or British.

const tags = {
  project: "Class", intro: "Introduction", maker: "You", terms: "Terms for buyers", caution: "Caution",
  supplies: "Supplies", stock: "Paper", sheet: "Sheet size", pack: "Pack of papers", holds: "Paper in the pack",
  stamps: "Stamp set", image: "Stamp", path: "Drawn line", text: "Lettering", shape: "Drawn shape", picture: "Picture",
  die: "Die", ink: "Ink", ribbon: "Ribbon", twine: "Twine", spool: "Ribbon", embellishment: "Embellishment",
  adhesive: "Adhesive", tool: "Tool", envelope: "Envelope", card: "Card", base: "Card base", panel: "Panel",
  band: "Belly band", liner: "Liner", score: "Score line", stamp: "Stamped image", window: "Window",
  emboss: "Embossing", distress: "Distressed edge", "ink-edge": "Inked edge", "round-corners": "Rounded corners",
  notch: "Thumb notch", "pop-up": "Pop-up", wash: "Wash", blend: "Stencil blending", splatter: "Splatter",
  colour: "Coloring", foil: "Foiling", stitch: "Stitching", tear: "Torn edge", glitter: "Glitter",
  alternative: "If there is no die", embellish: "Embellishment", step: "Step in your words", tip: "Tip",
  tier: "Kit option", blurb: "Words for the offer", include: "In the kit", own: "Buyer needs", swap: "Swaps",
  choice: "May be taken instead", run: "Dates and batch", expect: "Kits expected", "in-hand": "Stock in hand",
  order: "Order", supplier: "Supplier", "day-off": "Day off", work: "Working time", labels: "Label sheet",
  class: "Class in a room", slot: "Part of the timetable", selling: "Cost of selling", fees: "Payment fees",
  postage: "Shipping by weight", packing: "Packing", outlay: "Other cost",
};

const attributes = {
  id: "Short name in the file", name: "Name", title: "Title", subtitle: "Subtitle", stock: "Paper", on: "Lies on",
  size: "Size", inset: "Leaves on every side", width: "Width", height: "Height", at: "Where", places: "Places",
  turn: "Turned by (degrees)", die: "Die", cut: "Cut with", "cut-from": "Cut first from", raised: "Raised on",
  with: "Stuck with", layers: "Layers of foam", squares: "Foam squares", tape: "Tape", like: "The same as",
  "over-edge": "May stick out", under: "Tucked under", shape: "Outline", radius: "Radius", depth: "Depth",
  points: "Points", edge: "Edge", image: "Stamp", ink: "Ink", method: "How it is stamped", times: "How many times",
  fading: "Fade without inking again", columns: "Columns", rows: "Rows", of: "Ribbon or twine", as: "How it is laid",
  along: "Runs along the", extra: "Extra length", length: "Length", form: "Fold", minutes: "Minutes to make",
  level: "Level", envelope: "Envelope", price: "Price", item: "What", amount: "How much", gift: "Free with the kit",
  "reply-by": "Order by", "ship-by": "Ships by", "of-each": "Cards of each design", colour: "Color", weight: "Weight",
  sheet: "Sheet", pack: "How many in a pack", each: "Weight of one", grain: "Grain", pattern: "Pattern",
  upright: "The pattern has a top", print: "Print to", "print-to": "Round lengths to", units: "Unit", paper: "Print on",
  audience: "Who may take it", open: "How long it is open", shipping: "Shipping", parts: "Pieces come",
  ready: "Done to the pieces", "if-owned": "If she owns it already", places_: "Places", venue: "Where it is",
  tier: "Kit option", kits: "How many kits", "lead-days": "Days to arrive", items: "What they sell",
  "up-to": "Up to", cost: "Cost", for: "In place of the step for", "instead-of": "Tells the work of",
  uses: "Also takes", picture: "Photograph", "picture-words": "The photograph in words", roster: "Order list",
  fold: "Fold", spool: "Length of a spool", kind: "Kind", count: "How many", sheets: "Whole sheets",
  offcut: "Leftover piece", "print-other": "Lists give the other unit too", accent: "Accent color",
  currency: "Currency", language: "Language", edition: "Edition", date: "Date", contact: "Contact", web: "Web page",
};

const help = { at: "such as 3/8 from top, 1/4 from left; what you leave out is centered" };
const things = { panel: "Panel", image: "Stamped image", ribbon: "Ribbon", stamp: "Stamped image" };
const severities = { error: "Must be mended", warning: "Worth a look", remark: "Good to know" };

const documents = {
  html: "Tutorial as a web page", editions: "Tutorial for each option", "buying-list": "Shopping list", totals: "Pieces by envelope",
  money: "What the batch earns", "run-sheet": "Run sheet for the room", labels: "Address labels", booklet: "Folded booklet",
  rundown: "Rundown for a talk", announcements: "Announcements",
};
export const documentWords = (document) => documents[document.name] ?? document.title;

let british = false;
export function useLanguage(language) {
  british = language === "en-GB";
  document.documentElement.lang = british ? "en-GB" : "en-US";
}

const pairs = [["color", "colour"], ["gray", "grey"], ["centered", "centred"], ["Centered", "Centred"], ["center", "centre"], ["millimeter", "millimetre"], ["Color", "Colour"],
  ["Gray", "Grey"], ["Center", "Centre"]];
export function spelt(text) {
  if (!british) return text;
  return pairs.reduce((said, [us, gb]) => said.replaceAll(us, gb), text);
}

const plain = (name) => name.charAt(0).toUpperCase() + name.slice(1).replaceAll("-", " ");
export const tagWords = (tag) => spelt(tags[tag] ?? plain(tag));
export const attributeWords = (name, tag) => {
  if (tag === "emboss" || tag === "distress" || tag === "ink-edge" || tag === "round-corners") if (name === "with") return "Worked with";
  if (tag === "embellish" && name === "with") return "Embellishment";
  if (tag === "ribbon" && name === "at") return "Its middle line";
  return spelt(attributes[name] ?? plain(name));
};
export const helpWords = (attribute) => spelt(help[attribute.name] ?? attribute.help ?? "");
export const kindWords = (kind) => spelt(things[kind] ?? tags[kind] ?? plain(kind));
export const severityWords = (severity) => severities[severity] ?? severity;
export const centre = () => "centre"; // the file's own word, whatever the language
export const counted = (n, one, many) => `${n} ${n === 1 ? one : many}`;
export const sentence = (text) => !text ? "" : text.charAt(0).toUpperCase() + text.slice(1) + (/[.!?…]$/.test(text) ? "" : ".");

// Where a thing lies, without its own name and without what is stamped on it.
export const placeWords = (thing) => {
  const said = (thing.words ?? "").split(/, (?=stamped|with (?:rounded|ink))/)[0];
  return said.startsWith(`${thing.name}, `) ? said.slice(thing.name.length + 2) : said;
};

// How an element is called in a list: by its own name, else by what it is about.
export function elementName(element, find = () => undefined) {
  const get = (name) => element.attributes.find((a) => a[0] === name)?.[1];
  const own = get("title") ?? get("name");
  if (own) return own;
  const about = get("item") ?? get("image") ?? get("of") ?? (element.tag === "embellish" ? get("with") : undefined) ??
    get("tier") ?? get("card") ?? get("stock");
  if (about && !["base", "panel", "band", "liner"].includes(element.tag)) return find(about) ?? about.replaceAll("-", " ");
  if (get("id")) return get("id").replaceAll("-", " ");
  if (element.text) return element.text.length > 48 ? element.text.slice(0, 46) + " …" : element.text;
  return tagWords(element.tag);
}
