// Checks of a page; each gives a list of complaints.

const shown = e => e.checkVisibility({ visibilityProperty: true, opacityProperty: true });
const named = e => "<" + e.tagName.toLowerCase() + "> " + (e.textContent || "").trim().slice(0, 40);

function sideways() {
	const wide = document.documentElement.scrollWidth, room = document.documentElement.clientWidth;
	return wide > room ? ["the page scrolls sideways: " + wide + " px in " + room] : [];
}

function images() {
	const out = [];
	for (const i of document.images) {
		if (!i.complete || i.naturalWidth === 0) out.push("a picture does not load: " + i.alt.slice(0, 40));
		if (i.alt.trim().length < 20) out.push("a picture without words: " + i.src.slice(0, 40));
	}
	for (const s of document.querySelectorAll("svg")) {
		const words = (s.getAttribute("aria-labelledby") || "").split(" ").map(id => document.getElementById(id)?.textContent || "").join(" ");
		if (s.getAttribute("role") !== "img" || words.trim().length < 20) out.push("a drawing without words");
	}
	return out;
}

function headings() {
	const out = [];
	let last = 0;
	for (const h of document.querySelectorAll("h1,h2,h3,h4,h5,h6")) {
		const level = Number(h.tagName[1]);
		if (level > last + 1) out.push("a heading of level " + level + " after one of level " + last + ": " + named(h));
		if (!h.textContent.trim()) out.push("an empty heading");
		last = level;
	}
	const first = document.querySelectorAll("h1").length;
	if (first !== 1) out.push(first + " headings of the first level");
	return out;
}

function tables() {
	const out = [];
	for (const t of document.querySelectorAll("table")) {
		if (!t.querySelector("thead th")) out.push("a table without headers: " + named(t));
		for (const h of t.querySelectorAll("th")) {
			if (!["col", "row"].includes(h.scope)) out.push("a header without scope: " + named(h));
			if (!h.textContent.trim()) out.push("an empty header");
		}
		const width = t.rows[0].cells.length;
		for (const r of t.rows) if (r.cells.length !== width) out.push("a row of another length: " + named(r));
	}
	return out;
}

// names checks language, title, landmarks, links, ids and what can be scrolled by keyboard.
function names() {
	const out = [];
	if (!document.documentElement.lang) out.push("no language");
	if (!document.title.trim()) out.push("no title");
	for (const one of ["main", "header", "nav", "footer"]) {
		if (document.querySelectorAll("body > " + one).length !== 1) out.push("not one " + one);
	}
	const ids = [...document.querySelectorAll("[id]")].map(e => e.id);
	if (new Set(ids).size !== ids.length) out.push("an id stands twice");
	for (const a of document.querySelectorAll("a")) {
		const to = a.getAttribute("href") || "";
		if (!a.textContent.trim()) out.push("a link without words");
		if (!to.startsWith("#") || !document.getElementById(to.slice(1))) out.push("a link to nowhere: " + to);
	}
	for (const e of document.querySelectorAll("[aria-labelledby]")) {
		for (const id of e.getAttribute("aria-labelledby").split(" ")) if (!document.getElementById(id)) out.push("labelled by nothing: " + id);
	}
	for (const e of document.querySelectorAll("body *")) {
		const over = getComputedStyle(e).overflowX;
		if ((over === "auto" || over === "scroll") && (e.tabIndex < 0 || !e.getAttribute("aria-label"))) out.push("scrolls, but not by keyboard: " + named(e));
	}
	const skip = document.querySelector("a");
	if (!skip || !skip.classList.contains("skip")) out.push("the first link does not skip to the answer");
	return out;
}

function rgba(color) {
	const m = color.match(/[\d.]+/g)?.map(Number) || [0, 0, 0, 0];
	return { r: m[0], g: m[1], b: m[2], a: m.length > 3 ? m[3] : 1 };
}

const over = (top, below) => ({ r: top.r * top.a + below.r * (1 - top.a), g: top.g * top.a + below.g * (1 - top.a), b: top.b * top.a + below.b * (1 - top.a), a: 1 });

// luminance after WCAG 2.2, "relative luminance".
function luminance(c) {
	const part = v => (v /= 255, v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
	return 0.2126 * part(c.r) + 0.7152 * part(c.g) + 0.0722 * part(c.b);
}

function ratio(a, b) {
	const x = luminance(a), y = luminance(b);
	return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

// behind is the colour on which an element's text stands.
function behind(e) {
	const layers = [];
	for (let at = e; at; at = at.parentElement) {
		const c = rgba(getComputedStyle(at).backgroundColor);
		layers.push(c);
		if (c.a === 1) break;
	}
	let ground = { r: 255, g: 255, b: 255, a: 1 };
	for (const c of layers.reverse()) ground = over(c, ground);
	return ground;
}

// behindDrawn is the colour of the topmost shape under the middle of a drawing's text.
function behindDrawn(text) {
	const box = text.getBoundingClientRect(), x = box.x + box.width / 2, y = box.y + box.height / 2;
	for (const shape of [...text.ownerSVGElement.querySelectorAll("rect, path, circle")].reverse()) {
		const fill = getComputedStyle(shape).fill;
		if (fill === "none" || fill.startsWith("url") || !(shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) continue;
		const at = new DOMPoint(x, y).matrixTransform(shape.getScreenCTM().inverse());
		if (shape.isPointInFill(at)) return rgba(fill);
	}
	return { r: 255, g: 255, b: 255, a: 1 };
}

function contrast(least) {
	const out = new Set();
	const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let node; (node = walk.nextNode());) {
		const e = node.parentElement;
		if (!node.data.trim() || ["STYLE", "title", "desc"].includes(e.tagName) || !shown(e)) continue;
		const drawn = e.ownerSVGElement;
		const letters = rgba(drawn ? getComputedStyle(e).fill : getComputedStyle(e).color);
		const ground = drawn ? behindDrawn(e) : behind(e);
		const is = ratio(over(letters, ground), ground);
		if (is < least) out.add("contrast " + is.toFixed(2) + ": " + named(e));
	}
	return [...out];
}

// markEnds puts a coloured mark at the top and the bottom of every row and picture, and gives how many there are: red 255
// above and 253 below, green and blue the number. Headers of tables are left out: they stand on every page; so is what does not show.
function markEnds() {
	const all = [...document.querySelectorAll("tbody tr, .paper")].filter(shown);
	all.forEach((e, i) => {
		const place = e.tagName === "TR" ? e.cells[0] : e;
		place.style.position = "relative";
		for (const [side, red] of [["top", 255], ["bottom", 253]]) {
			const mark = document.createElement("span");
			mark.style.cssText = "position:absolute;left:0;width:8px;height:4px;" + side + ":0;z-index:9;background:rgb(" + red + "," + (i % 256) + "," + Math.floor(i / 256) + ")";
			mark.setAttribute("aria-hidden", "true");
			place.append(mark);
		}
	});
	return all.length;
}
