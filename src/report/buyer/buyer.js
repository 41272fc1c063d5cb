"use strict";
/* Looks up what was computed beforehand and shows it; computes no number of the boat. */
(() => {
  const byId = (id) => document.getElementById(id);
  const values = JSON.parse(byId("values").textContent);
  const loading = byId("loading"), speed = byId("speed"), planes = byId("planes");
  const of = () => values.loadings[loading ? Number(loading.value) : values.first[0]];

  const number = (digits, decimals) => {
    const sign = digits < 0 ? "-" : "";
    const text = String(Math.abs(digits)).padStart(decimals + 1, "0");
    return sign + (decimals ? text.slice(0, -decimals) + "." + text.slice(-decimals) : text);
  };
  const trim = (point) => number(point[0], 1) + "°";
  const resistance = (point) => number(point[1], values.force_decimals) + " " + values.force_unit;
  const draft = (point) => number(point[2], 2) + " " + values.length_unit;
  const runs = (point) => point.length > 1;

  /* The picture: one scale for all settings, so that they can be compared. */
  const wide = 380;
  const long = Math.max(...values.profile.map((at) => at[0]));
  const high = Math.max(...values.profile.map((at) => at[1]));
  const chord = values.plane ? values.plane[0] : 0;
  const scale = (wide - 24) / (long + chord + 0.1 * long);
  const steepest = Math.max(0, ...values.loadings.flatMap((one) => one.points.flat()).filter(runs).map((point) => point[0]));
  const deepest = Math.max(0, ...values.loadings.flatMap((one) => one.points.flat()).filter(runs).map((point) => point[3]));
  const above = 24 + scale * (long * Math.sin(steepest * Math.PI / 1800) + high);
  const below = 14 + scale * (deepest + chord);
  const draw = (point, down) => {
    const angle = runs(point) ? point[0] * Math.PI / 1800 : 0;
    const sunk = runs(point) ? point[3] : 0;
    const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
    const place = ([x, z]) => [
      12 + scale * (chord + 0.05 * long + x * cos - z * sin),
      above - scale * (x * sin + z * cos - sunk),
    ].map((px) => px.toFixed(1)).join(",");
    const shape = (points) => points.map(place).join(" ");
    const turn = down * Math.PI / 180;
    const hinge = values.plane ? [0, values.plane[1]] : null;
    const edge = hinge ? [-chord * Math.cos(turn), hinge[1] - chord * Math.sin(turn)] : null;
    const plate = hinge ? `<polyline class="plate" points="${shape([hinge, edge])}"/>` : "";
    const ghost = runs(point) ? "" : " class=\"ghost\"";
    byId("picture").innerHTML =
      `<svg viewBox="0 0 ${wide} ${(above + below).toFixed(0)}" role="img" aria-label="The boat from her side, to scale">` +
      `<rect class="sea" x="0" y="${above.toFixed(1)}" width="${wide}" height="${below.toFixed(1)}"/>` +
      `<g${ghost}><polygon class="side" points="${shape(values.profile)}"/><polygon class="bottom" points="${shape(values.bottom)}"/>${plate}</g>` +
      `<line class="surface" x1="0" x2="${wide}" y1="${above.toFixed(1)}" y2="${above.toFixed(1)}"/></svg>`;
  };

  const fill = (id, point) => {
    for (const [name, shown] of [["trim", trim], ["resistance", resistance], ["draft", draft]]) {
      const cell = byId(`${name}_${id}`);
      if (cell) cell.textContent = runs(point) ? shown(point) : "–";
    }
  };
  const show = () => {
    const one = of();
    speed.max = one.speeds.length - 1;
    const at = Number(speed.value);
    const down = planes ? Number(planes.value) : 0;
    const [up, point] = [one.points[at][0], one.points[at][down]];
    const named = one.speeds[at] + " " + values.speed_unit;
    const set = down === 0 ? "up" : down + "°";
    byId("speed_now").textContent = named;
    speed.setAttribute("aria-valuetext", named);
    draw(point, down);
    fill("up", up);
    const dangers = [], untested = [];
    if (planes) {
      fill("set", point);
      byId("planes_now").textContent = set;
      planes.setAttribute("aria-valuetext", set);
      byId("as_set").textContent = down === 0 ? "as set: up" : "planes " + set;
      const safe = one.safe[at], most = Number(planes.max);
      byId("free").style.width = 100 * safe / most + "%";
      byId("beyond").style.width = 100 - 100 * safe / most + "%";
      byId("never").textContent = safe < 1 ? `Never put them down at ${named}.` : `Never beyond ${safe}° at ${named}.`;
      byId("advised").textContent = one.advised[at] === 0 ? "Set them as advised: up" : `Set them as advised: ${one.advised[at]}°`;
      if (down > safe) dangers.push(`Danger. Too far down: never beyond ${safe}° at ${named}.`);
    }
    if (runs(point)) {
      byId("words").textContent = `At ${named} with planes ${down === 0 ? "up" : set + " down"} she runs at ${trim(point)} of trim.`;
      for (const said of point.slice(4)) {
        const [isDanger, text] = values.said[said];
        (isDanger ? dangers : untested).push(isDanger ? "Danger. " + text : text);
      }
    } else {
      const [isDanger, text] = values.halts[point[0]];
      byId("words").textContent = `At ${named} with planes ${down === 0 ? "up" : set + " down"}: ${text}`;
      if (isDanger) dangers.push("Danger. She does not run so: do not try it.");
    }
    byId("danger").textContent = dangers[0] || "";
    byId("untested").textContent = untested.length ? "Read with care: " + untested.join(" ") : "";
  };

  if (planes) planes.max = values.loadings[values.first[0]].points[0].length - 1;
  if (loading) loading.value = values.first[0];
  speed.max = of().speeds.length - 1;
  speed.value = values.first[1];
  if (planes) {
    planes.value = of().advised[values.first[1]];
    planes.addEventListener("input", show);
    byId("advised").addEventListener("click", () => {
      planes.value = of().advised[Number(speed.value)];
      show();
    });
  }
  speed.addEventListener("input", show);
  loading?.addEventListener("change", () => {
    /* The same speed in the other loading, or the nearest. */
    const before = Number(byId("speed_now").textContent.split(" ")[0]);
    const apart = of().speeds.map((other) => Math.abs(other - before));
    speed.max = apart.length - 1;
    speed.value = apart.indexOf(Math.min(...apart));
    show();
  });
  byId("sliders").hidden = false;
  byId("numbers").hidden = false;
  show();
})();
