// Which part of the work is shown, told by the address after #, so that Back works.
export const pages = [
  { id: "cards", words: "Cards" },
  { id: "supplies", words: "Supplies" },
  { id: "class", words: "Kits and dates" },
  { id: "orders", words: "Orders" },
  { id: "papers", words: "Papers" },
  { id: "notes", words: "Notes" },
];

export function where() {
  const [page, card, view] = location.hash.slice(1).split("/").map(decodeURIComponent);
  if (page === "card" && card) return { page: "card", card, view: view || "front" };
  return { page: pages.some((p) => p.id === page) ? page : "cards" };
}
export const to = (...parts) => `#${parts.map(encodeURIComponent).join("/")}`;
export const go = (...parts) => { location.hash = to(...parts); };
