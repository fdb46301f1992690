// Plane geometry of the board: site metres, degrees clockwise from north. The browser draws and snaps with it;
// what counts for water and trenches is measured on the server.

export * from "./paths.js";
export * from "./points.js";
export * from "./rings.js";
