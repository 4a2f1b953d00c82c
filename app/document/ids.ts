/**
 * The only place where the ids of stages, modes, resources, levers and routes are made and read.
 * Everything else passes the typed identity. The strings stand in documents (pins, records, links,
 * levers), in results and on printed plans, so that they must stay the same to the byte.
 */
export * from './ids/levers.ts';
export * from './ids/materials.ts';
export * from './ids/modes.ts';
export * from './ids/resources.ts';
export * from './ids/routes.ts';
export * from './ids/stages.ts';
