export {
  type ContainerCheck,
  type ContainerNumber,
  containerCategories,
  containerCheck,
  letterValue,
  readContainer,
} from './iso6346.ts';
export { type CheckSystem, checkCharacters, checkSystems, hasRightCheck } from './iso7064.ts';
