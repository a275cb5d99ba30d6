import { el, setText } from "../../widgets/dom.js";
import { button } from "../../widgets/section.js";
import { checkBox, slider } from "../../widgets/slider.js";
import { clock, spokenSeconds } from "../../widgets/typeset.js";
import type { Panel, View } from "../view.js";
import { setLoopFrom, setLoopTo } from "./loopEnds.js";
import { overviewStrip } from "./overviewStrip.js";

/** Play, position and loop: by buttons and sliders, and by the pointer on the strip. */
export function transport(view: View): Panel {
  const { player } = view.bench;
  const play = button("Play", () => toggle(view), "play");
  const strip = overviewStrip(view);
  const time = el("span", { class: "time" });
  const length = player.lengthSeconds;
  const position = slider({
    label: "Position",
    bare: true,
    min: 0,
    max: length,
    step: 0.05,
    words: clock,
    spoken: (value) => `${spokenSeconds(value)} of ${spokenSeconds(player.lengthSeconds)}`,
    onInput: (value) => player.seek(value),
  });
  const loop = checkBox("Loop", (on) => player.setLoop({ on }));
  const from = slider({
    label: "from",
    name: "Loop from",
    min: 0,
    max: length,
    step: 0.05,
    words: clock,
    spoken: spokenSeconds,
    onInput: (value) => setLoopFrom(view, value),
  });
  const to = slider({
    label: "to",
    name: "Loop to",
    min: 0,
    max: length,
    step: 0.05,
    words: clock,
    spoken: spokenSeconds,
    onInput: (value) => setLoopTo(view, value),
  });
  const whole = button(
    "Whole take",
    () => player.setLoop({ on: false, from: 0, to: player.lengthSeconds }),
    "whole",
  );

  const follow = () => {
    position.set(player.position);
    setText(time, `${clock(player.position)} of ${clock(player.lengthSeconds)}`);
  };
  const update = () => {
    for (const { input } of [position, from, to]) input.max = String(player.lengthSeconds);
    setText(play, player.playing ? "Pause" : "Play");
    loop.input.checked = player.loop.on;
    from.set(player.loop.from);
    to.set(player.loop.to);
    play.disabled = player.lengthSeconds === 0;
    strip.update();
    follow();
    if (player.playing && !ticking) {
      ticking = true;
      setTimeout(tick, followMs);
    }
  };
  const node = el(
    "div",
    { class: "transport" },
    el("div", { class: "row" }, play, time, whole),
    strip.node,
    position.node,
    el("div", { class: "loop" }, loop.node, from.node, to.node),
  );
  let ticking = false;
  const tick = () => {
    ticking = player.playing && node.isConnected;
    if (!ticking) return;
    follow();
    setTimeout(tick, followMs);
  };
  update();
  return { node, update };
}

/** How often position and slider follow while playing; the strip follows every frame. */
const followMs = 250;

export function toggle({ bench: { player } }: View): void {
  if (player.playing) player.pause();
  else player.play();
}
