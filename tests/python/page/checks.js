/* What the tests look at in the page itself. Each check returns what it found wrong, in words. */
({
  // Contrast of every visible text with what is painted behind it; in a figure, with the bar that it stands on.
  contrast() {
    const parse = (colour) => {
      const numbers = colour.match(/[\d.]+/g).map(Number);
      return { rgb: numbers.slice(0, 3), a: numbers.length > 3 ? numbers[3] : 1 };
    };
    const over = (top, a, under) => top.map((v, i) => a * v + (1 - a) * under[i]);
    const linear = (v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
    const luminance = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
    const behind = (el) => {
      const stack = [];
      for (let one = el; one; one = one.parentElement) stack.unshift(parse(getComputedStyle(one).backgroundColor));
      return stack.reduce((under, one) => over(one.rgb, one.a, under), [255, 255, 255]);
    };
    const overlap = (p, q) => p.left < q.right && q.left < p.right && p.top < q.bottom && q.top < p.bottom;
    const found = [];
    const judge = (el, ink, paper) => {
      const [a, b] = [luminance(ink), luminance(paper)].sort((x, y) => y - x);
      const style = getComputedStyle(el);
      const size = parseFloat(style.fontSize);
      const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
      const ratio = (a + 0.05) / (b + 0.05);
      if (ratio < (large ? 3 : 4.5)) found.push(`${el.textContent.trim().slice(0, 40)}: ${ratio.toFixed(2)}`);
    };
    for (const el of document.querySelectorAll("body *")) {
      const own = [...el.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
      if (!own || !el.getClientRects().length) continue;
      if (el.closest(".aloud-only, .skip, script, style, noscript")) continue;
      if (el.matches(":disabled, :disabled + label, option")) continue;
      const style = getComputedStyle(el);
      if (!(el instanceof SVGElement)) {
        const paper = behind(el);
        const ink = parse(style.color);
        judge(el, over(ink.rgb, ink.a, paper), paper);
        continue;
      }
      let paper = behind(el.ownerSVGElement.parentElement);
      for (const rect of el.ownerSVGElement.querySelectorAll("rect")) {
        if (!overlap(rect.getBoundingClientRect(), el.getBoundingClientRect())) continue;
        const fill = getComputedStyle(rect);
        paper = over(parse(fill.fill).rgb, Number(fill.opacity), paper);
      }
      judge(el, over(parse(style.fill).rgb, Number(style.opacity), paper), paper);
    }
    return found;
  },

  // Texts of figures: inside, apart from each other, and on no curve.
  figures() {
    const found = [];
    for (const svg of document.querySelectorAll("#page svg")) {
      if (!svg.getClientRects().length) continue;
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll("text")].map((t) => [t.textContent, t.getBoundingClientRect()]);
      texts.forEach(([a, p], i) => {
        const sideways = p.left < -0.5 || p.right > innerWidth + 0.5 || p.right > frame.right + 16;
        if (sideways || p.top < frame.top - 8 || p.bottom > frame.bottom + 4) found.push(`outside: ${a}`);
        texts.slice(i + 1).forEach(([b, q]) => {
          const across = p.left < q.right - 1 && q.left < p.right - 1;
          if (across && p.top < q.bottom - 2 && q.top < p.bottom - 2) found.push(`"${a}" on "${b}"`);
        });
      });
      const to = svg.getScreenCTM();
      for (const line of svg.querySelectorAll("polyline")) {
        for (const point of line.points) {
          const on = point.matrixTransform(to);
          for (const [a, p] of texts) {
            const inside = on.x > p.left + 1 && on.x < p.right - 1 && on.y > p.top + 3 && on.y < p.bottom - 3;
            if (inside) found.push(`a curve through "${a}"`);
          }
        }
      }
    }
    return [...new Set(found)];
  },

  // Names of controls and regions, ids, heads of tables, levels of headings.
  names() {
    const found = [];
    const start = (el) => el.outerHTML.slice(0, 80);
    const named = (el) => {
      const labels = [...(el.labels || [])].map((label) => label.textContent).join("");
      const own = el.matches("button, a, summary") ? el.textContent : "";
      return (el.getAttribute("aria-label") || labels || own).trim();
    };
    for (const el of document.querySelectorAll("input, select, button, a, summary")) {
      if (!named(el)) found.push(start(el));
    }
    for (const el of document.querySelectorAll("[role=radiogroup], nav, form, section, svg")) {
      const has = el.getAttribute("aria-label") || el.getAttribute("aria-labelledby");
      if (!has && !el.closest("[aria-hidden]") && !el.closest(".cautions")) found.push(start(el));
    }
    const ids = [...document.querySelectorAll("[id]")].map((el) => el.id);
    ids.forEach((id, i) => {
      if (ids.indexOf(id) !== i) found.push(`two of ${id}`);
    });
    for (const el of document.querySelectorAll("[for], [aria-labelledby]")) {
      const id = el.getAttribute("for") || el.getAttribute("aria-labelledby");
      if (!document.getElementById(id)) found.push(`nothing is called ${id}`);
    }
    for (const el of document.querySelectorAll("th")) {
      if (!el.scope) found.push(`th without scope: ${el.textContent}`);
    }
    let level = 0;
    for (const el of document.querySelectorAll("h1, h2, h3, h4")) {
      const own = Number(el.tagName[1]);
      if (own > level + 1) found.push(`${el.tagName} after H${level}: ${el.textContent}`);
      level = own;
    }
    for (const tag of ["h1", "main"]) {
      if (document.querySelectorAll(tag).length !== 1) found.push(`not one ${tag}`);
    }
    if (!document.documentElement.lang || !document.title) found.push("language and title");
    return found;
  },

  smallTargets() {
    const targets = "button, select, summary, input[type=range], .segments label, .option";
    return [...document.querySelectorAll(targets)]
      .filter((el) => el.getClientRects().length && el.getBoundingClientRect().height < 24)
      .map((el) => `${el.id || el.textContent}: ${el.getBoundingClientRect().height}`);
  },

  tooWide() {
    return [...document.querySelectorAll("#page *")]
      .filter((el) => el.getClientRects().length && !el.closest(".wide, svg, .aloud-only"))
      .filter((el) => el.getBoundingClientRect().right > innerWidth + 1)
      .map((el) => el.outerHTML.slice(0, 80));
  },

  // Numbers what the focus should stop at, in the order of reading; one stop for each group of radio buttons.
  order() {
    const ids = [];
    for (const el of document.querySelectorAll("a[href], button, select, input, summary")) {
      if (!el.getClientRects().length || el.disabled) continue;
      if (el.type === "radio") {
        const group = [...document.querySelectorAll(`input[name="${el.name}"]`)];
        if (el !== (group.find((one) => one.checked) || group[0])) continue;
      }
      el.dataset.order = String(ids.length);
      ids.push(el.id || el.textContent);
    }
    return ids;
  },

  // The number of what has the focus, and whether that is seen.
  focused() {
    const el = document.activeElement;
    const ring = getComputedStyle(el.closest(".segments") || el);
    return [el.dataset.order ?? null, ring.outlineStyle !== "none" && parseFloat(ring.outlineWidth) >= 2];
  },
})
