// How wet the ground gets, as a picture that the server made, under everything but the ground.
import { ImageStatic } from "./ol.js";
import { projection } from "./view.js";

export function showWetting(layer, answer) {
  if (!answer) {
    layer.setSource(null);
    return;
  }
  layer.setSource(new ImageStatic({ url: answer.image, imageExtent: answer.extent, projection, interpolate: true }));
}
