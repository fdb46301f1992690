// The only module that reads the global of the map library.
const { ol } = globalThis;

export const { Feature } = ol;
export const OlMap = ol.Map;
export const { View } = ol;
export const { Point, LineString, Polygon } = ol.geom;
export const VectorLayer = ol.layer.Vector;
// Draws its features into a picture and shows that until they or the view change.
export const PictureLayer = ol.layer.VectorImage;
export const ImageLayer = ol.layer.Image;
export const { Layer } = ol.layer;
export const VectorSource = ol.source.Vector;
export const { ImageStatic } = ol.source;
export const { Style, Fill, Stroke, Text } = ol.style;
export const { DragPan, PinchZoom, MouseWheelZoom } = ol.interaction;
export const { Control } = ol.control;
export const { Projection } = ol.proj;
