import { herronLangway } from '../firn/index.ts';
import { describeWorkedExamples } from '../method-pages.suite.ts';
import * as radar from './index.ts';

describeWorkedExamples(['radar'], { ...radar, herronLangway });
