import type { Ask, Plan } from './ask.ts';
import { campPlans } from './camp-plans.ts';
import { corePlans } from './core-plans.ts';
import { drillPlans } from './drill-plans.ts';

const plans: Readonly<Record<string, Plan>> = { ...drillPlans, ...corePlans, ...campPlans };

const none: Plan = { asks: [], more: [] };

/** What is asked for a kind of thing; nothing for a kind that no form makes. */
export const planOf = (kind: string): Plan => plans[kind] ?? none;

/** Every field of a kind that a form asks for, in the order of the work. */
export const asksOf = (kind: string): readonly Ask[] => [...planOf(kind).asks, ...planOf(kind).more];

export const askOf = (kind: string, field: string): Ask =>
  asksOf(kind).find((ask) => ask.field === field) ?? { field };
