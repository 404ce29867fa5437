@echo off
rem Builds Lonefibre on first use, then runs it.
setlocal
set HOME_DIR=%~dp0
if not exist "%HOME_DIR%app\target\lonefibre-app.jar" (
  echo lonefibre: building 1>&2
  pushd "%HOME_DIR%"
  call mvn -B -q -DskipTests -Dspotless.check.skip=true package || (popd & echo lonefibre: the build failed 1>&2 & exit /b 1)
  popd
)
java -Djava.awt.headless=true -cp "%HOME_DIR%app\target\lonefibre-app.jar;%HOME_DIR%app\target\lib\*" org.lonefibre.app.Lonefibre %*
