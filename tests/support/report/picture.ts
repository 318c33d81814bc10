import type { StoredPicture } from '../../../src/report/pictures/stored.js';

/** A grey JPEG of 48 x 32 pixels by ImageMagick with libjpeg-turbo: one component, no metadata. */
const GREY = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAMCAgICAgMCAgIDAwMDBAYEBAQEBAgGBgUGCQgKCgkICQkKDA8MCgsOCwkJDRENDg8QEBEQCgwSExIQEw8QEBD/wAALCAAgADABAREA/8QAFgABAQEAAAAAAAAAAAAAAAAAAAgF/8QAFBABAAAAAAAAAAAAAAAAAAAAAP/aAAgBAQAAPwDTBGgLLBGgLLBGgLLBGgP/2Q==',
  'base64',
);

/** A picture for reports. */
export const picture: StoredPicture = { jpeg: new Uint8Array(GREY), width: 48, height: 32 };
