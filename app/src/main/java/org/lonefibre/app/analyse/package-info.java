/**
 * The command {@code analyse}: from files to a judged examination.
 *
 * <ol>
 *   <li>The hidden {@code StudyOptions} declare an examination, or fill what a study file leaves
 *       open.
 *   <li>{@link org.lonefibre.app.analyse.ExaminationAnalyser} takes every file through the chain,
 *       files in parallel over the cores: {@code FileTask} opens and hashes one, {@code
 *       ChannelChoice} and {@code SitePlan} say which stretches of which signal it holds, {@code
 *       SiteTask} analyses one of them. What cannot be read is refused alone.
 *   <li>{@link org.lonefibre.app.analyse.SummaryText} says the result in a few lines.
 *   <li>{@link org.lonefibre.app.analyse.AnalyseCommand} is the command.
 * </ol>
 */
@NullMarked
package org.lonefibre.app.analyse;

import org.jspecify.annotations.NullMarked;
