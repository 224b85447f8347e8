// Walks over many elements for the engine: a call out of it takes as long as
// dozens of steps in here.

// Where an element stands: what attribute name says of it, below the names of
// the groups, lists and items that hold it. That is its path in the case.
function placeOf(el, name, seen = new Map()) {
  return placeAbove(el, seen) + (el.getAttribute(name) || "");
}

function placeAbove(el, seen) {
  const holder = el.parentElement && el.parentElement.closest("[data-item], [data-list], [data-group]");
  if (!holder) return "";
  let place = seen.get(holder);
  if (place !== undefined) return place;
  const { group, list, item } = holder.dataset;
  place = placeAbove(holder, seen);
  if (group) place += group + ".";
  if (item !== undefined) place += [...holder.parentElement.children].indexOf(holder) + ".";
  else if (list) place += list + ".";
  seen.set(holder, place);
  return place;
}

// The elements that have an attribute, and a line of each: where it stands and,
// of a field, its type.
function placesOf(name) {
  const all = document.querySelectorAll("[" + name + "]"), seen = new Map();
  return { all, lines: Array.from(all, (el) => placeOf(el, name, seen) + "\t" + (el.type || "")).join("\n") };
}

// The attributes of some names below an element, and what each says in a line.
function attributesBelow(root, names) {
  const all = names.split(" ").flatMap((name) => Array.from(root.querySelectorAll("[" + name + "]"), (el) => el.getAttributeNode(name)));
  return { all, lines: all.map((attribute) => attribute.value).join("\n") };
}

// Gives those attributes other values.
function setAttributes(all, lines) {
  lines.split("\n").forEach((value, i) => { if (all[i].value !== value) all[i].value = value; });
}

// Shuts the buttons that would leave a list with too few items or too many.
function limitLists() {
  for (const button of document.querySelectorAll("[data-do=remove-item]")) {
    const list = button.closest("[data-list]");
    button.hidden = list.children.length <= list.dataset.least;
  }
  for (const button of document.querySelectorAll("[data-do=add-item]")) {
    const list = button.parentElement.querySelector('[data-list="' + button.dataset.to + '"]');
    button.disabled = list.children.length >= list.dataset.most;
  }
}

// Opens the buttons that needed the engine.
function openButtons() {
  for (const button of document.querySelectorAll("button[data-do]")) button.disabled = false;
}
