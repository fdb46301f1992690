// The hand moves the plan under the window.

export const createTool = ({ board, leave }) => ({
  name: "hand", label: "Hand", key: "G", group: "",
  help: "Drag to move the plan; wheel or two fingers to zoom.",
  enable: () => board.panning(true),
  disable: () => board.panning(false),
  onKey: (event) => (event.key === "Escape" ? (leave(), true) : false),
});
