export * from './color/index.ts';
export * from './diagnostic.ts';
export * from './matrix3.ts';
export * from './result.ts';
export * from './rigid.ts';
export * from './shape.ts';
export * from './vec3.ts';
