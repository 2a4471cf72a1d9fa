// A phone's camera before a screen: what a code says that is drawn there, read off its pixels by a
// decoder that knows nothing of the house. Scaling, colours and quiet zone are those that are shown.
import jsQR from 'jsqr';

/** The text of the code in a picture on a page, or undefined when no camera could read it. */
export async function scanned(picture) {
  const png = await picture.screenshot();
  // Pixels by the browser's own decoder, in a page under no policy.
  const desk = await picture.page().context().newPage();
  const { pixels, width, height } = await desk.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    canvas.drawImage(bitmap, 0, 0);
    const { data } = canvas.getImageData(0, 0, bitmap.width, bitmap.height);
    const pixels = data.reduce((text, byte) => text + String.fromCharCode(byte), '');
    return { pixels, width: bitmap.width, height: bitmap.height };
  }, png.toString('base64'));
  await desk.close();
  const rgba = new Uint8ClampedArray(Buffer.from(pixels, 'latin1'));
  return jsQR(rgba, width, height, { inversionAttempts: 'dontInvert' })?.data;
}
