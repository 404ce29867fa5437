/**
 * What people write down: the examination to be analysed and the settings to analyse it with.
 *
 * <ol>
 *   <li>The hidden {@code YamlReader} reads a YAML file into nodes that remember their line; {@code
 *       YamlMap} gives their values, each checked, and knows every key that may stand there.
 *   <li>{@link org.lonefibre.app.declaration.StudyFile} reads a study file into a {@link
 *       org.lonefibre.app.declaration.DeclaredExamination}; {@code Words} checks muscle, needle,
 *       limits and code.
 *   <li>{@link org.lonefibre.app.declaration.SettingsFile} reads settings by their dotted names;
 *       {@link org.lonefibre.app.declaration.SettingsInForce} holds what applies, each value with
 *       its source. The hidden {@code RecordTree} names and changes the components of nested
 *       settings records.
 *   <li>{@link org.lonefibre.app.declaration.ScenarioFile} reads, in the same way, what to
 *       simulate.
 *   <li>{@link org.lonefibre.app.declaration.NeedleFile} finds a needle by its name or reads its
 *       file.
 * </ol>
 */
@NullMarked
package org.lonefibre.app.declaration;

import org.jspecify.annotations.NullMarked;
