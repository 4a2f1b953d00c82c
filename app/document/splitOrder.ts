/**
 * The one order of everything, `order`, as documents of before name it: read as the order with every
 * supplier, and the check of what each delivered, once the rows say who delivers.
 */
import { readStageId, stageId } from './ids.ts';
import type { FullBuild } from './schema.ts';

const UNSPLIT_ORDER = stageId({ what: 'order' });

export type Named = Pick<FullBuild, 'pins' | 'records' | 'links' | 'printed'>;

/**
 * A build whose pins, records, links and printed plan name the orders that took the place of the one. A
 * record that says that all has come stands for the checks as well; what was to follow the order follows
 * the checks.
 * @param suppliers that are ordered from; empty: the one order stays
 */
export function withSplitOrder<T extends Named>(build: T, suppliers: readonly string[]): T {
  if (suppliers.length === 0 || !namesWhole(build)) return build;
  const orders = suppliers.map((supplier) => stageId({ what: 'order', supplier }));
  const checks = suppliers.map((supplier) => stageId({ what: 'arrival', supplier }));
  const each = <S extends { readonly stage: string }>(list: readonly S[]): S[] =>
    list.flatMap((one) =>
      one.stage === UNSPLIT_ORDER ? orders.map((stage) => ({ ...one, stage })) : [one],
    );
  const { printed } = build;
  return {
    ...build,
    pins: each(build.pins),
    records: build.records.flatMap((record) => {
      if (record.stage !== UNSPLIT_ORDER) return [record];
      const { end } = record;
      const checked = end === null ? [] : checks.map((stage) => ({ ...record, stage, start: end }));
      return [...each([record]), ...checked];
    }),
    links: build.links.flatMap((link) => {
      if (link.before === UNSPLIT_ORDER) return checks.map((before) => ({ ...link, before }));
      return link.after === UNSPLIT_ORDER ? orders.map((after) => ({ ...link, after })) : [link];
    }),
    printed: printed && { ...printed, stages: each(printed.stages) },
  };
}

const namesWhole = ({ pins, records, links, printed }: Named): boolean =>
  [...pins, ...records, ...(printed?.stages ?? [])].some(({ stage }) => stage === UNSPLIT_ORDER) ||
  links.some(({ before, after }) => before === UNSPLIT_ORDER || after === UNSPLIT_ORDER);

/** True where a name in a document is that of the one order, and the stage one of those in its place. */
export function suppliersSplit(named: string, stage: string): boolean {
  if (named !== UNSPLIT_ORDER) return false;
  const ref = readStageId(stage);
  return ref !== null && 'supplier' in ref;
}
