/** Lets a file be dropped anywhere on the page. */
export function listenForDrops(root: HTMLElement, onFile: (file: File) => void): void {
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
  document.addEventListener("dragover", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    root.classList.add("dropping");
  });
  document.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) root.classList.remove("dropping");
  });
  document.addEventListener("drop", (event) => {
    root.classList.remove("dropping");
    if (!carriesFiles(event)) return;
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) onFile(file);
  });
}
