/** Everything up to the first mix: mould, cutting, core fit, rehearsal, release. */
import { practiceOf, releaseOf } from '../../document/library.ts';
import { STAGE_NAMES } from '../../messages/stages.ts';
import { coreOnMouldRow, fitsCoreOnMould } from '../../part/labour.ts';
import { MINUTES_PER_HOUR } from '../../time/instant.ts';
import { gear, type NetworkBuilder } from './builder.ts';
import { hoursOfAnybody, type Orders } from './orders.ts';
import { outsideJob } from './outside.ts';
import { insertStages } from './inserts.ts';
import { waitMap } from './wait.ts';

/** Ids of the stages that the first layup waits for. */
export interface Before {
  readonly cutting: string | null;
  readonly coreFit: string | null;
  /** What the core bond waits for. */
  readonly inserts: string | null;
  readonly rehearsal: string | null;
  readonly release: string | null;
  readonly warm: string | null;
  readonly bagTest: string | null;
}

/** Adds the stages between the orders and the first mix, and gives the ids that the first layup waits for. */
export function stagesBefore(net: NetworkBuilder, { all: order }: Orders): Before {
  const mouldReady = mouldStages(net, order);
  const bench = [gear('bench')];
  const cutting = net.labour({
    ref: { what: 'cutting' },
    name: STAGE_NAMES.cutting(),
    kind: 'cutting',
    gear: bench,
  });
  const onMould = fitsCoreOnMould(net.input.build, net.input.library);
  const coreFit = net.labour({
    ref: { what: 'core-fit' },
    name: coreFitName(net, onMould),
    kind: 'core-fit',
    air: 'dust',
    gear: onMould ? [] : bench,
  });
  if (onMould) net.after(mouldReady, coreFit, 'core-on-mould');
  net.after(order, cutting, 'cloth-arrived');
  net.after(order, coreFit, 'core-arrived');
  const rehearsal = net.labour({
    ref: { what: 'rehearsal' },
    name: STAGE_NAMES.rehearsal(),
    kind: 'rehearsal',
  });
  for (const stage of [cutting, coreFit, mouldReady]) {
    net.after(stage, rehearsal, 'rehearsed');
  }
  const release = releaseStage(net, [mouldReady, order, rehearsal, testPanel(net, order)]);
  const warm = warmStage(net, order);
  return {
    cutting,
    coreFit,
    inserts: insertStages(net, { order, cutting, warm, coreFit }),
    rehearsal,
    release,
    warm,
    bagTest: mouldReady,
  };
}

/** A build that has not taken the row for core on the mould fits all of it in one go, as it did. */
function coreFitName({ input: { library, build } }: NetworkBuilder, onMould: boolean): string {
  if (coreOnMouldRow(library) === null) return STAGE_NAMES.coreFit();
  if (!onMould) return STAGE_NAMES.coreFitByTemplate();
  const flat = build.part.zones.some((zone) => zone.core && zone.shape === 'flat');
  return STAGE_NAMES.coreFitOnMould(flat);
}

/** Machining or glue-up, seal coats and their cure, bag test of the bare mould. */
function mouldStages(net: NetworkBuilder, order: string | null): string | null {
  const { build, library } = net.input;
  const machining = build.outside
    .filter((party) => party.kind === 'machining')
    .map((party) => outsideJob(net, party));
  for (const job of machining) net.after(order, job, 'blank-arrived');
  const inHouse = net.labour({
    ref: { what: 'machining' },
    name: STAGE_NAMES.machining(),
    kind: 'machining',
    air: 'dust',
  });
  net.after(order, inHouse, 'blank-arrived');
  let last = machining.at(-1) ?? inHouse ?? order;
  if (!build.mould.sealed) {
    const mould = net.labour({
      ref: { what: 'mould' },
      name: STAGE_NAMES.mould(),
      kind: 'mould',
      air: 'dust',
    });
    net.after(last, mould, 'mould-there');
    const seal = net.labour({
      ref: { what: 'seal' },
      name: STAGE_NAMES.seal(),
      kind: 'seal',
      air: 'release',
    });
    net.after(mould ?? last, seal, 'mould-finished');
    const row = library.moulds.find((m) => m.id === build.mould.material);
    const cured = net.elapsed(
      { ref: { what: 'wait', for: 'seal' }, name: STAGE_NAMES.sealerCures(), kind: 'wait' },
      Math.max(1, (row?.sealCureHours ?? 0) * MINUTES_PER_HOUR),
    );
    net.after(seal ?? mould ?? last, cured, 'sealer-cures');
    last = cured;
  }
  const test = net.labour({
    ref: { what: 'bag-test' },
    name: STAGE_NAMES.bagTest(),
    kind: 'bag-test',
  });
  net.after(last, test, 'mould-sealed');
  return test ?? last;
}

/** A small panel of the same resin, release and primer, looked at once it has hardened. */
function testPanel(net: NetworkBuilder, order: string | null): string | null {
  const { library, profile } = net.input;
  const laid = net.labour({
    ref: { what: 'test-panel' },
    name: STAGE_NAMES.testPanel(),
    kind: 'test-panel',
    air: 'wet',
    gear: [gear('bench')],
  });
  if (laid === null) return null;
  net.after(order, laid, 'resin-arrived');
  const hardens = waitMap(library, profile, practiceOf(library)('test-panel-hours'));
  const hard = net.running(
    {
      ref: { what: 'wait', for: 'test-panel' },
      name: STAGE_NAMES.testPanelHardens(),
      kind: 'wait',
    },
    { kind: 'function', endOf: hardens.apply, latestStart: hardens.latest },
  );
  net.after(laid, hard, 'panel-tested');
  return hard;
}

/** Release coats: no earlier than their keeping time before the first mix. */
function releaseStage(net: NetworkBuilder, ready: readonly (string | null)[]): string {
  const { build, library, part } = net.input;
  const row = releaseOf(library, build.mould.release);
  const coating = Math.max(part.workFor('release').personMinutes, 1);
  const between = row.betweenCoatsMinutes;
  const release = net.handsOn({
    ref: { what: 'release' },
    name: STAGE_NAMES.release(row.name, row.coats),
    kind: 'release',
    // Somebody stays with the mould between coats, so the waits count as work of the stage.
    personMinutes: coating + (row.coats - 1) * between,
    countedMinutes: coating,
    air: 'release',
    perishable: true,
  });
  for (const stage of ready) net.after(stage, release, 'mould-tested');
  return release;
}

/** Resin stands in the warm for a day before it is mixed; somebody puts it there. */
function warmStage(net: NetworkBuilder, order: string | null): string {
  const hours = practiceOf(net.input.library)('resin-warm-hours');
  const warm = net.elapsed(
    {
      ref: { what: 'resin-warm' },
      name: STAGE_NAMES.resinWarm(),
      kind: 'resin-warm',
      perishable: true,
    },
    hours * MINUTES_PER_HOUR,
    [],
    // To the minute at which the last one leaves.
    hoursOfAnybody(net).map(({ start, end }) => ({ start, end: end + 1 })),
  );
  net.after(order, warm, 'resin-arrived');
  return warm;
}
