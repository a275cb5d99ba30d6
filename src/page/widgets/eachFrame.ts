/**
 * Draws at every frame of the screen for as long as `draw` says so.
 * @param draw  false once there is nothing more to draw
 * @returns what begins it, now; while it runs, another beginning is none
 */
export function eachFrame(draw: () => boolean): () => void {
  let isRunning = false;
  const next = () => {
    isRunning = draw();
    if (isRunning) requestAnimationFrame(next);
  };
  return () => {
    if (!isRunning) next();
  };
}
