import type { Browser } from 'playwright-core';

/** How far two pictures are apart: the share of their blocks of 12 by 12 pixels whose lightness clearly differs. */
export async function compareImages(browser: Browser, one: Buffer, other: Buffer): Promise<number> {
  const page = await browser.newPage();
  try {
    return await page.evaluate(
      async (addresses) => {
        const [a, b] = await Promise.all(
          addresses.map(async (address) => {
            const image = new Image();
            image.src = address;
            await image.decode();
            return image;
          }),
        );
        if (!a || !b || Math.abs(a.width - b.width) > 8 || Math.abs(a.height - b.height) > 24) return 1;
        const [width, height] = [Math.min(a.width, b.width), Math.min(a.height, b.height)];
        const block = 12;
        const [across, down] = [Math.floor(width / block), Math.floor(height / block)];
        const lightnesses = (image: HTMLImageElement): number[] => {
          const canvas = new OffscreenCanvas(across, down);
          const context = canvas.getContext('2d');
          if (!context) return [];
          context.imageSmoothingQuality = 'high';
          context.drawImage(image, 0, 0, across * block, down * block, 0, 0, across, down);
          const { data } = context.getImageData(0, 0, across, down);
          return Array.from({ length: across * down }, (_, n) => {
            const [red = 0, green = 0, blue = 0] = data.slice(n * 4, n * 4 + 3);
            return 0.3 * red + 0.59 * green + 0.11 * blue;
          });
        };
        const [first, second] = [lightnesses(a), lightnesses(b)];
        const apart = first.filter((value, n) => Math.abs(value - (second[n] ?? 0)) > 28);
        return apart.length / Math.max(1, first.length);
      },
      [one, other].map((bytes) => `data:image/jpeg;base64,${bytes.toString('base64')}`),
    );
  } finally {
    await page.close();
  }
}
