/**
 * A swipe over a page that begins on a slider scrolls and turns nothing: when the browser takes the finger for a scroll, the
 * slider goes back to where it was. Sideways it slides as ever (`touch-action` in `slider.css`).
 */
export function scrollsOverSlider(input: HTMLInputElement): HTMLInputElement {
  let before = input.value;
  input.addEventListener("pointerdown", () => {
    before = input.value;
  });
  input.addEventListener("pointercancel", () => {
    if (input.value === before) return;
    input.value = before;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
  return input;
}
