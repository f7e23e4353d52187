/** Writes the scene for Embree's path tracer: `npx tsx tests/reference/embree/writeEmbreeScene.ts GAIN FILE.xml`. */
import { writeFileSync } from 'node:fs';
import { embreeScene } from './embreeScene.ts';

const [gain, file] = process.argv.slice(2);
writeFileSync(file, embreeScene(Number(gain)));
