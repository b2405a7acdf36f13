import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as identifiers from './index.ts';

describeWorkedExamples(['identifiers'], { ...identifiers });
