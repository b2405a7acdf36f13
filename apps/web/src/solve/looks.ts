/** What is worked out for looking at, and not for a form: fetched with the first of these questions. */
export { changeOrder, densityView } from '@firnbook/campaign';
export { diff, verdict } from '@firnbook/science/depth-scales';
