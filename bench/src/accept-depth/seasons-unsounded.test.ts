import { describeSeasons } from './seasons.suite.ts';

describeSeasons('unsounded');
