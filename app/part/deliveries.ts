/** What has to be ordered, supplier by supplier. */
import type { FullBuild } from '../document/schema.ts';
import { toOrderOf } from './order.ts';
import type { KitLine } from './types.ts';

/** Everything that comes from one supplier, in one delivery. */
export interface Delivery {
  /** As rows of the library name it; `other` for rows that name none. */
  readonly supplier: string;
  readonly name: string;
  /** Working days of the supplier from order to arrival: those of its slowest line. */
  readonly leadDays: number;
  /** The lines that are to order. */
  readonly lines: readonly KitLine[];
  /** Those of them whose lead time is not known: they are taken to come with the others. */
  readonly unknown: readonly KitLine[];
}

/** Who delivers what no row names a supplier for. */
export const OTHER_SUPPLIERS = 'other';

type Order = Pick<FullBuild, 'suppliers' | 'stock'>;

/** True where the rows say who delivers: each supplier is then ordered from, and waited for, by itself. */
export const hasSuppliers = (kit: readonly KitLine[]): boolean =>
  kit.some(({ supplier }) => supplier !== null);

/**
 * The deliveries of a kit, in the order of its lines. What lies in the shop is not ordered, nor what is not
 * waited for at all (machining). Empty where no row names a supplier.
 */
export function deliveriesOf({ suppliers, stock }: Order, kit: readonly KitLine[]): Delivery[] {
  if (!hasSuppliers(kit)) return [];
  const bySupplier = new Map<string, KitLine[]>();
  for (const line of kit) {
    if (line.leadDays === 0 || toOrderOf(line, stock) === 0) continue;
    const supplier = line.supplier ?? OTHER_SUPPLIERS;
    bySupplier.set(supplier, [...(bySupplier.get(supplier) ?? []), line]);
  }
  return [...bySupplier].map(([supplier, lines]) => {
    const own = suppliers.find(({ id }) => id === supplier);
    const stated = own?.leadDays ?? null;
    return {
      supplier,
      name: own?.name ?? nameOf(supplier),
      leadDays: stated ?? Math.max(0, ...lines.map(({ leadDays }) => leadDays ?? 0)),
      lines,
      unknown: stated === null ? lines.filter(({ leadDays }) => leadDays === null) : [],
    };
  });
}

/** Suppliers that a kit names, each once. */
export const suppliersIn = (kit: readonly KitLine[]): string[] => [
  ...new Set(kit.map(({ supplier }) => supplier ?? OTHER_SUPPLIERS)),
];

/** `cloth-merchant` reads 'cloth merchant' until the shop gives a name. */
const nameOf = (supplier: string): string =>
  supplier === OTHER_SUPPLIERS ? 'other suppliers' : supplier.replaceAll('-', ' ');
