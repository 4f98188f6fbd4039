// Keys, keeping what is typed, and vouching for it. Everything else works without this file.
"use strict";

const one = (selector) => document.querySelector(selector);
const KEYS_OFF = "levelspoon keys off";

// Keys: the letter shown beside a word does what the word says, except while somebody types.
function keysOff() { return localStorage.getItem(KEYS_OFF) === "yes"; }

function showKeys() {
  const button = one("#keys");
  button.hidden = false;
  button.textContent = keysOff() ? "Single keys are off" : "Single keys are on";
  button.setAttribute("aria-pressed", String(!keysOff()));
}

document.addEventListener("keydown", (event) => {
  const at = event.target;
  if (event.key === "Escape" && at.matches("textarea, input")) { at.blur(); one("#sheet").focus(); return; }
  if (event.ctrlKey || event.metaKey || event.altKey || keysOff() || event.repeat) return;
  if (at.matches("textarea:not([readonly]), input:not([type=checkbox]), select")) return;
  const wanted = [...document.querySelectorAll("[data-key]")].find((e) => e.dataset.key === event.key.toLowerCase() && !e.hidden);
  if (!wanted) return;
  event.preventDefault();
  wanted.click();
});

for (const button of document.querySelectorAll("[data-copy]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const from = document.getElementById(button.dataset.copy);
    await navigator.clipboard.writeText(from.value ?? from.textContent);
    const kbd = button.querySelector("kbd");
    button.replaceChildren("copied ", ...(kbd ? [kbd] : []));
  });
}

if (one("#keys")) {
  one("#keys").addEventListener("click", () => { localStorage.setItem(KEYS_OFF, keysOff() ? "no" : "yes"); showKeys(); });
  showKeys();
}

// A sheet that is still being worked out is looked for again.
if (one("[data-again]")) setTimeout(() => location.reload(), 1500);

// The answer: a mirror lies under the field and carries the marks.
const form = one("#reply"), field = one("#answer");
if (form && field) {
  const mirror = one(".mirror"), kept = one("#kept"), margin = one("#margin");
  const shelf = `levelspoon words ${form.elements.id.value}`;
  let saved = field.value, spans = marksOf(mirror), waiting = 0, since = 0, saving = false;

  function marksOf(element) {
    const found = []; let at = 0;
    for (const node of element.childNodes) {
      if (node.className) found.push([at, at + node.textContent.length, node.className]);
      at += node.textContent.length;
    }
    return found;
  }

  function draw(text) {
    const parts = []; let at = 0;
    for (const [start, end, kind] of spans) {
      const mark = document.createElement("span");
      mark.className = kind;
      mark.textContent = text.slice(start, end);
      parts.push(text.slice(at, start), mark);
      at = end;
    }
    mirror.replaceChildren(...parts, text.slice(at) + "\u200b");
    align();
  }

  // Marks move with the text around them until the program has looked at it again.
  function shift(before, after) {
    let head = 0, tail = 0;
    const most = Math.min(before.length, after.length);
    while (head < most && before[head] === after[head]) head++;
    while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
    const end = before.length - tail, by = after.length - before.length;
    spans = spans.filter(([a, b]) => b < head || a > end).map(([a, b, kind]) => (a > end ? [a + by, b + by, kind] : [a, b, kind]));
  }

  // A note lies beside the line it belongs to, where the margin has room.
  function align() {
    const notes = [...margin.querySelectorAll(".note")];
    for (const note of notes) note.style.marginTop = "";
    if (getComputedStyle(one(".spread")).display !== "grid") return;
    const marks = [...mirror.children];
    for (const note of notes) {
      const place = spans.findIndex(([start]) => start === Number(note.dataset.at));
      if (place < 0 || !marks[place]) continue;
      const gap = marks[place].getBoundingClientRect().top - note.getBoundingClientRect().top;
      if (gap > 0) note.style.marginTop = `${gap}px`;
    }
  }

  let last = field.value;
  field.addEventListener("input", () => {
    shift(last, field.value);
    last = field.value;
    draw(last);
    localStorage.setItem(shelf, last);
    kept.textContent = "";
    clearTimeout(waiting);
    since ||= Date.now();
    waiting = setTimeout(keep, Date.now() - since > 1500 ? 0 : 400);
  });

  async function keep() {
    if (saving || field.value === saved) return;
    saving = true; since = 0;
    const text = field.value;
    try {
      const answer = await fetch("/typed", { method: "POST", body: new URLSearchParams({
        token: form.elements.token.value, id: form.elements.id.value, standing: form.elements.standing.value, text }) });
      if (answer.status === 409) {
        kept.textContent = `${(await answer.json()).stale}. Your words are safe in this field; sign or keep them to see both.`;
      } else if (!answer.ok) {
        kept.textContent = (await answer.text()).trim();
      } else {
        take(await answer.json(), text);
      }
    } catch {
      kept.textContent = "The program does not answer. Your words are kept in this browser; start it again and open this sheet.";
    } finally {
      saving = false;
      if (field.value !== text && field.value !== saved) waiting = setTimeout(keep, 400);
    }
  }

  function take(told, text) {
    saved = text;
    form.elements.standing.value = told.standing;
    form.elements.seen.value = told.seen;
    kept.textContent = told.length ? `Kept. ${told.length}.` : "Kept.";
    if (field.value !== text) return;
    localStorage.removeItem(shelf);
    spans = told.spans;
    margin.innerHTML = told.margin;
    draw(text);
  }

  // Words that were typed while the program was away.
  const left = localStorage.getItem(shelf);
  if (left !== null && left !== field.value && !field.readOnly) {
    const back = document.createElement("button");
    back.type = "button"; back.className = "act"; back.textContent = "Put back what was typed here and not kept";
    back.addEventListener("click", () => { field.value = left; field.dispatchEvent(new Event("input")); back.remove(); });
    kept.append(back);
  } else {
    localStorage.removeItem(shelf);
  }
  // An act waits for the words on their way to be kept, so that it is about what is in the field.
  form.addEventListener("submit", (event) => {
    clearTimeout(waiting);
    if (!saving) return;
    event.preventDefault();
    setTimeout(() => form.requestSubmit(event.submitter), 30);
  });
  field.addEventListener("blur", keep);
  one('[data-key="c"]')?.addEventListener("click", (event) => { event.preventDefault(); field.focus(); field.setSelectionRange(field.value.length, field.value.length); });
  addEventListener("resize", align);
  document.fonts.ready.then(() => draw(field.value));
}
