/** Branded quantities: a number that says its unit in its type. The brand exists at compile time only. */
declare const unit: unique symbol;
type Quantity<Unit extends string> = number & { readonly [unit]?: Unit };

/** Metres; a depth counts down from its hole's zero. */
export type Metres = Quantity<'m'>;
/** A pure number, for example a scale error of 0.004. */
export type Ratio = Quantity<'1'>;
